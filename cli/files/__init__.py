"""Everything that is read and written, each fault told with its file, line and key.

* Jobs: `job_file` (TOML, by `toml_text` and `job_keys`; `job_errors` has the words of faults),
  `quick_job` (a list of things and the sizes of one case), `starter` (`casewright new`).
* Lists: `reading` (text, spreadsheet files, standard input), `workbooks`, `parts_file`,
  `have_file`, `price_file`, `survey_file`; `hold_words` reads the words of `--hold`.
* Plans: `answers` (JSON of this program, and the last plan kept beside a job),
  `signed_files` (signed revisions), `export` (CSV files and a workbook).

`output` writes: complete or not at all, and nothing is replaced unasked.
"""
