"""The add-in in a real LibreOffice."""

import openpyxl
import pytest

pytestmark = pytest.mark.libreoffice


def test_a_quench_is_calculated_and_keeps_its_formula(recalculated, tmp_path, eng):
    book = openpyxl.Workbook()
    book.active["A1"] = -0.002
    book.active["A2"] = "42 thou"
    book.active["A3"] = "=ENG.QUENCH(A1,A2)"
    book.save(tmp_path / "quench.xlsx")
    result = recalculated(tmp_path / "quench.xlsx")
    assert openpyxl.load_workbook(result).active["A3"].value == "=ENG.QUENCH(A1,A2)"
    saved = openpyxl.load_workbook(result, data_only=True).active["A3"].value
    assert saved == pytest.approx(eng("QUENCH", -0.002, "42 thou"), rel=1e-12)
