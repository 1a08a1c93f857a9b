"""What a label says once, though its text and its position both say it."""

import pytest

from workbook_tools.labels.label import Label


@pytest.mark.parametrize(
    ("text", "position", "said", "name"),
    [
        ("Top ring end gap, cyl 2", "Cyl 2", "Top ring end gap, cyl 2", "Top ring end gap"),
        ("Crankpin 1", "Rod 1", "Crankpin 1", "Crankpin"),
        ("Bohrung Z1", "Cyl 1", "Bohrung Z1", "Bohrung"),
        ("bore #4", "Cyl 4", "bore #4", "bore"),
        ("Bore", "Cyl 1", "Bore, Cyl 1", "Bore"),
        # The second ring of the first cylinder, and a cylinder that is all that is said.
        ("Ring gap 2", "Cyl 1", "Ring gap 2, Cyl 1", "Ring gap 2"),
        ("Main 2", "Main 2", "Main 2", "Main 2"),
        ("Stroke", "", "Stroke", "Stroke"),
    ],
)
def test_a_position_is_said_once(text, position, said, name):
    label = Label(text, position)
    assert (str(label), label.name) == (said, name)
