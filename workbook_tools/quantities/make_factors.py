"""Write factors.json anew from pint: `python -m workbook_tools.quantities.make_factors`.

Needed after a spelling or a kind was added. Every unit that is spelled gets its factor to the
SI unit of each kind of its dimension.
"""

from __future__ import annotations

import json
from pathlib import Path

from workbook_tools.quantities.kinds import KINDS, TEMPERATURE, TEMPERATURE_RISE
from workbook_tools.quantities.registry import factor, same_dimension
from workbook_tools.quantities.scales import ABSOLUTE, FACTORS_FILE
from workbook_tools.quantities.spellings import SPELLINGS, SPELLINGS_BY_KIND


def factors_text() -> str:
    """The content of factors.json."""
    # Temperatures have scales with a zero of their own.
    kinds = [k for k in KINDS.values() if k.si and k not in (TEMPERATURE, TEMPERATURE_RISE)]
    bases = sorted({kind.si for kind in kinds})
    units = sorted({*SPELLINGS.values(), *SPELLINGS_BY_KIND.values()} - set(ABSOLUTE))
    made = {u: {si: factor(u, si) for si in bases if same_dimension(u, si)} for u in units}
    return json.dumps(made, indent=1, ensure_ascii=False) + "\n"


def main() -> None:
    """Write the file beside this module."""
    path = Path(__file__).with_name(FACTORS_FILE)
    path.write_text(factors_text(), encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
