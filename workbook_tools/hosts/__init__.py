"""The catalog in spreadsheet programs, each host derived from the catalog."""
