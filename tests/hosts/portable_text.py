"""The text of a function without an add-in, taken apart."""

import re


def without_texts(text):
    return re.sub(r'"(?:[^"]|"")*"', '""', text)


def arguments_of(text, function):
    """The arguments of every call of a function, each as text."""
    for call in re.finditer(re.escape(function) + r"\(", text):
        level, start, found = 0, call.end(), []
        for at in range(call.end(), len(text)):
            if level == 0 and text[at] in ",)":
                found.append(text[start:at])
                start = at + 1
            if level == 0 and text[at] == ")":
                break
            level += {"(": 1, ")": -1, "{": 1, "}": -1}.get(text[at], 0)
        yield found


def names_declared(text):
    """The names that a text declares, as parameters and as LET bindings."""
    for arguments in arguments_of(text, "_xlfn.LAMBDA"):
        yield from (re.fullmatch(r"_xl[op][mp]\.(\w+)", a)[1] for a in arguments[:-1])
    for arguments in arguments_of(text, "_xlfn.LET"):
        yield from (re.fullmatch(r"_xlpm\.(\w+)", a)[1] for a in arguments[:-1:2])
