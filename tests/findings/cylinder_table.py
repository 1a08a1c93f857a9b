"""Tables of cylinders as builders lay them out."""

BORES = [4.0301, 4.0300, 4.0302, 4.0299, 4.0301, 4.0303]


def table(*columns):
    """A table of cylinders down: a head and a column for each item."""
    heads, values = zip(*columns, strict=True)
    rows = zip(*values, strict=True)
    return [["Cylinder", *heads], *([f"Cyl {n}", *row] for n, row in enumerate(rows, 1))]
