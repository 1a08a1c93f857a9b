"""When a size was taken, or whose wish or limit it is."""

from __future__ import annotations

from typing import Literal, get_args

Stage = Literal["", "found", "machined", "final", "target", "limit_low", "limit_high"]
STAGES: tuple[Stage, ...] = get_args(Stage)
