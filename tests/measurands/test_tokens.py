"""Words of labels in one even form."""

from workbook_tools.measurands.tokens import tokens


def test_ordinals_as_spanish_and_french_write_them():
    assert tokens("punta 2.º") == tokens("punta 2º") == ("punta", "2")
