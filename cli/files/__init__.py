"""Everything that is read and written, each fault told with its file, line and key.

* Jobs: `job_file` (TOML, by `toml_text` and `job_keys`; `job_key_errors` and `job_value_errors`
have the words of faults),
  `quick_job` (a list of things and the sizes of one case), `starter` (`casewright new`).
* Lists: `reading` (text, spreadsheet files, standard input), `workbooks`, `parts_file`,
  `have_file`, `price_file`, `survey_file`; `hold_option` reads the words of `--hold`.
* Plans: `saved_answers` (JSON of this program, and the last plan kept beside a job),
  `signed_files` (signed revisions), `export` (CSV files and a workbook).

`output` writes: complete or not at all, and nothing is replaced unasked.
"""
