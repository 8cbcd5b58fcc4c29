"""Reads written patterns back and compares them with their charts, both by itself.

Usage: expand_rows.py FOLDER. Each file holds a design and the pattern's lines, as read_back_test.cc
dumps them. Shares no code with the service: the chart's conventions are taken from the trade's
rules, the text's grammar from writer.h. Exit status 1 where a pattern and its chart differ.
"""

import pathlib
import re
import sys

RANGE = r"(?:-|\d+(?:-\d+)?)"
LIST = rf"{RANGE}(?: \({RANGE}(?:, {RANGE})*\))?"
HEAD = re.compile(rf"(?P<word>Row|Rnd)s? (?P<rows>{LIST}) \((?P<side>RS|WS), (?P<colour>[AB])\): "
                  rf"(?P<steps>.*)\. \((?P<count>{LIST}) sts\)")
AGAIN = re.compile(rf"(?:Row|Rnd)s? (?P<rows>{LIST}): rep (?:Row|Rnd)s? (?P<source>{LIST})"
                   rf"(?: (?P<twice>twice)| (?P<times>{LIST}) times)?\.")
TERM = re.compile(rf"(ssc|sc)(?: ({LIST}))?")
CLOSE = re.compile(rf"\] ({LIST}) times")
FIRST = ("sc in 2nd ch from hook and in each ch across", "sc in each ch around")


def of_size(text, size, sizes):
    """The value that a list gives a size."""
    values = re.findall(RANGE, text)
    assert len(values) in (1, sizes), f"{text}: {sizes} sizes"
    return values[0] if len(values) == 1 else values[size]


def row_range(text, size, sizes):
    value = of_size(text, size, sizes)
    if value == "-":
        return None
    first, _, last = value.partition("-")
    return range(int(first), int(last or first) + 1)


def unfold(steps, size, sizes):
    """Stitches of a row's steps, with a stack for the brackets."""
    stack = [""]
    at = 0
    while at < len(steps):
        if steps[at] == "[":
            stack.append("")
            at += 1
            continue
        if match := CLOSE.match(steps, at):
            inside = stack.pop()
            stack[-1] += inside * int(of_size(match[1], size, sizes))
        elif match := TERM.match(steps, at):
            stitch = "x" if match[1] == "ssc" else "."
            stack[-1] += stitch * int(of_size(match[2] or "1", size, sizes))
        else:
            raise ValueError(f"not understood: {steps[at:]}")
        at = match.end()
        if steps.startswith(", ", at):
            at += 2
    assert len(stack) == 1, f"brackets do not close: {steps}"
    return stack[0]


def read_text(lines, size, names, width):
    rows = {}
    only = None
    for line in lines:
        if line.startswith("Size "):
            only = line[5:-1]
            continue
        if only not in (None, names[size]):
            continue
        if match := HEAD.fullmatch(line):
            numbers = row_range(match["rows"], size, len(names))
            steps = match["steps"]
            stitches = "." * width if steps in FIRST else unfold(steps, size, len(names))
            assert int(of_size(match["count"], size, len(names))) == len(stitches), line
            if numbers is not None:
                (number,) = numbers
                assert number not in rows, line
                rows[number] = (match["side"], match["colour"], stitches)
        elif match := AGAIN.fullmatch(line):
            numbers = row_range(match["rows"], size, len(names))
            source = row_range(match["source"], size, len(names))
            times = int(of_size(match["times"] or ("2" if match["twice"] else "1"), size,
                                len(names)))
            if numbers is None:
                assert times == 0, line
                continue
            assert len(numbers) == len(source) * times, line
            for i, number in enumerate(numbers):
                assert number not in rows, line
                rows[number] = rows[source[i % len(source)]]
        else:
            raise ValueError(f"not understood: {line}")
    return rows


def repeated(items, band, times):
    if band is None:
        return items
    first, last = band
    return items[:first - 1] + items[first - 1:last] * times + items[last:]


def side_of(row, facing, form):
    if form == "tube" or facing == "one-face":
        return "RS"
    if facing == "two-face":
        return "RS" if row % 2 else "WS"
    return "RS" if (row - 1) // 2 % 2 == 0 else "WS"


def from_chart(design, size):
    """Rows by number, from the chart: expanded as it was given, then turned into stitches."""
    _, wide, tall = design["sizes"][size]
    cells = [repeated(list(row), design["stitch_band"], wide) for row in design["cells"]]
    cells = repeated(cells, design["row_band"], tall)
    if design["colours"]:
        colours = repeated(list(design["colours"]), design["row_band"], tall)
    else:
        colours = ["AB"[i % 2] for i in range(len(cells))]
    rows = {}
    for i, row in enumerate(cells):
        if design["convention"] == "working":
            drops = row
        elif i == 0:
            drops = ["."] * len(row)
        else:
            shown = ["B" if cell == "x" else "A" for cell in cells[i - 1]]
            drops = ["x" if colour != colours[i - 1] else "." for colour in shown]
        side = side_of(i + 1, design["facing"], design["form"])
        # Stitch 1 is at the right edge of face 1; a right-handed maker works from right to left.
        from_stitch_one = (side == "RS") == (design["hand"] == "right")
        stitches = "".join(drops if from_stitch_one else reversed(drops))
        rows[i + design["first"]] = (side, colours[i], stitches)
    return rows


def read_file(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    design = {}
    design["convention"], design["facing"], design["form"], design["hand"], first = lines[0].split()
    design["first"] = int(first)
    for name, line in (("stitch_band", lines[1]), ("row_band", lines[2])):
        design[name] = None if line == "-" else tuple(map(int, line.split()))
    design["colours"] = lines[3]
    at = 5 + int(lines[4])
    design["sizes"] = [(name, int(wide), int(tall))
                       for name, wide, tall in (line.split() for line in lines[5:at])]
    design["cells"] = lines[at + 1:at + 1 + int(lines[at])]
    return design, lines[at + 1 + int(lines[at]):]


def check(path):
    """What differs first, or None."""
    design, lines = read_file(path)
    names = [name for name, _, _ in design["sizes"]]
    for size, name in enumerate(names):
        expected = from_chart(design, size)
        width = len(expected[design["first"]][2])
        written = read_text(lines, size, names, width)
        if written.keys() != expected.keys():
            return f"size {name}: other rows than the chart"
        for number, row in expected.items():
            if written[number] != row:
                return f"size {name}, row {number}: {written[number]}, chart {row}"
    return None


def main():
    paths = sorted(pathlib.Path(sys.argv[1]).glob("*.txt"))
    faults = 0
    for path in paths:
        if fault := check(path):
            print(f"{path.name}: {fault}")
            faults += 1
    if faults or not paths:
        sys.exit(1)
    print(f"{len(paths)} patterns agree with their charts")


if __name__ == "__main__":
    main()
