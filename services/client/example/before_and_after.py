#!/usr/bin/python3
"""Two charts side by side as one small SVG: before_and_after.py BEFORE.csv AFTER.csv > FILE.svg

Cells that differ have a red frame. A chart is a CSV as rowproof reads and writes it: letters A and
B or signs . and x, the top row first, with or without commas.
"""

import sys

CELL, GAP, MARGIN = 8, 40, 4
COLOURS = {"A": "#f2e6cf", "B": "#223b52"}


def read(path):
    with open(path, encoding="utf-8") as file:
        lines = [line.strip().replace(",", "") for line in file if line.strip()]
    return [line.upper().replace(".", "A").replace("X", "B") for line in lines]


def runs(chart, left, colour):
    """One path for all cells of a colour, a step for each run of them."""
    steps = []
    for y, line in enumerate(chart):
        x = 0
        while x < len(line):
            end = x
            while end < len(line) and line[end] == line[x]:
                end += 1
            if line[x] == colour:
                width = (end - x) * CELL
                steps.append("M%d %dh%dv%dh-%dz" % (left + x * CELL, MARGIN + y * CELL, width,
                                                    CELL, width))
            x = end
    return '<path fill="%s" d="%s"/>' % (COLOURS[colour], "".join(steps))


def frames(chart, other, left):
    return ['<path fill="none" stroke="#c62828" stroke-width="2" d="M%d %dh%dv%dh-%dz"/>' %
            (left + x * CELL, MARGIN + y * CELL, CELL, CELL, CELL)
            for y, line in enumerate(chart) for x, cell in enumerate(line) if other[y][x] != cell]


def main(before_path, after_path):
    before, after = read(before_path), read(after_path)
    width, height = len(before[0]) * CELL, len(before) * CELL
    right = MARGIN + width + GAP
    parts = ['<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d" '
             'aria-label="A chart before and after repair">' % (right + width + MARGIN,
                                                                height + 2 * MARGIN)]
    for chart, other, left in ((before, after, MARGIN), (after, before, right)):
        parts.append('<rect x="%d" y="%d" width="%d" height="%d" fill="%s"/>' %
                     (left, MARGIN, width, height, COLOURS["A"]))
        parts.append(runs(chart, left, "B"))
        parts += frames(chart, other, left)
    middle, centre = MARGIN + height // 2, MARGIN + width + GAP // 2
    parts.append('<path fill="none" stroke="#666" stroke-width="2" d="M%d %dh20m-6-6l6 6l-6 6"/>' %
                 (centre - 10, middle))
    print("\n".join(parts + ["</svg>"]))


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2])
