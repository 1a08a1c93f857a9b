"""Print one of the README's two commands, so that what is tested is what a reader types."""

import re
import sys
from pathlib import Path

README = Path(__file__).parents[1] / "README.md"
FIRST_WORDS = {"job": "workbook-tools summarize", "test": "pytest"}


def main() -> None:
    """Print the first command block that contains the words of the wanted command."""
    blocks = re.findall(r"^```(?:sh|bash)\n(.*?)^```", README.read_text("utf-8"), re.M | re.S)
    wanted = FIRST_WORDS[sys.argv[1]]
    print(next(block for block in blocks if wanted in block and "venv" in block).strip())


if __name__ == "__main__":
    main()
