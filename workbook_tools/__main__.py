"""`python -m workbook_tools` is the `workbook-tools` command."""

from workbook_tools.cli import main

if __name__ == "__main__":
    main()
