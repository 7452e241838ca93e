"""The command line: files in, tables and files out. Nothing heavy is imported here."""
