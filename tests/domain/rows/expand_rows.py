"""Reads written patterns back and compares them with their charts, both by itself.

Usage: expand_rows.py FOLDER. Each file is a design and its pattern in JSON, as read_back_test.cc
dumps them. Shares no code with the service: the chart's conventions are taken from the trade's
rules, the text's grammar from services/domain/rows/writer_grammar.md. Exit status 1 where a pattern
and its chart differ, where a row's count or the foundation is wrong, or where the abbreviations are
not exactly those that the text uses.

An element of a row is "." (plain), "x" (drop) or (chains, skipped): a chain space.
"""

import json
import pathlib
import re
import sys

RANGE = r"(?:-|\d+(?:-\d+)?)"
LIST = rf"{RANGE}(?: \({RANGE}(?:, {RANGE})*\))?"
HEAD = re.compile(rf"(?P<word>Row|Rnd)s? (?P<rows>{LIST}) \((?P<side>RS|WS), (?P<colour>[^)]+)\): "
                  rf"(?P<steps>.*)\. \((?P<count>{LIST}) sts?(?:, (?P<spaces>{LIST}) ch-sps?)?\)")
AGAIN = re.compile(rf"(?P<word>Row|Rnd)s? (?P<rows>{LIST}): rep (?:Row|Rnd)s? (?P<source>{LIST})"
                   rf"(?: (?P<twice>twice)| (?P<times>{LIST}) times)?\.")
CLOSE = re.compile(rf"\] ({LIST}) times")
STAR_END = re.compile(rf"; rep from \* (?:(?P<whole>across|around)|to last (?P<last>\d+) sts?"
                      rf"|(?P<once>once) more|(?P<more>{LIST}) more times)")
PLAIN_WORDS = set("across and around each from hook in last more once times to twice".split())


class Terms:
    """The stitch words of one system for one technique."""

    def __init__(self, uk, technique):
        drop = {"spike": ("ssc", "sdc"), "overlay": ("mdc", "mtr"), "inset": ("mdc", "mtr")}
        self.uk = uk
        self.plain = "dc" if uk else "sc"
        self.drop = drop[technique][uk]
        self.skip = "miss" if uk else "sk"
        self.first = (f"{self.plain} in 2nd ch from hook and in each ch across",
                      f"{self.plain} in each ch around")
        self.stitch = re.compile(rf"({self.drop}|{self.plain})(?: ({LIST}))?")
        self.space = re.compile(rf"ch ({LIST}), {self.skip} (?:({LIST})|ch-sp)")
        self.abbreviations = {
            self.plain: "double crochet" if uk else "single crochet",
            "ssc": "spike single crochet", "sdc": "spike double crochet",
            "mdc": "mosaic double crochet", "mtr": "mosaic treble",
            "ch": "chain", "ch-sp": "chain space", "ch-sps": "chain spaces", "rep": "repeat",
            "Rnd": "round", "Rnds": "rounds", "RS": "right side", "WS": "wrong side",
            "st": "stitch", "sts": "stitches", "BLO": "back loop only", "FLO": "front loop only",
            "ss" if uk else "sl st": "slip stitch"}
        if not uk:
            self.abbreviations["sk"] = "skip"


def of_size(text, size, sizes):
    """The value that a list gives a size."""
    values = re.findall(RANGE, text)
    assert len(values) in (1, sizes), f"{text}: {sizes} sizes"
    assert len(values) == 1 or len(set(values)) > 1, f"{text}: one number would do"
    return values[0] if len(values) == 1 else values[size]


def row_range(text, size, sizes):
    value = of_size(text, size, sizes)
    if value == "-":
        return None
    first, _, last = value.partition("-")
    return range(int(first), int(last or first) + 1)


def width(elements):
    return sum(1 if isinstance(e, str) else e[1] for e in elements)


class Steps:
    """Elements of one row's steps in one size. `over_spaces`: its chain spaces stand over those of
    the row before (a WS row of inset)."""

    def __init__(self, text, terms, size, sizes, stitches, over_spaces):
        self.text, self.terms, self.size, self.sizes = text, terms, size, sizes
        self.stitches = stitches
        self.over_spaces = over_spaces
        self.at = 0
        self.starred = False

    def number(self, text):
        return int(of_size(text, self.size, self.sizes))

    def all(self):
        elements = self.sequence(0)
        assert self.at == len(self.text), f"not understood: {self.text[self.at:]}"
        return elements

    def sequence(self, depth):
        elements = []
        while True:
            if self.text[self.at] == "[":
                self.at += 1
                inside = self.sequence(depth + 1)
                match = CLOSE.match(self.text, self.at)
                assert match, f"] expected: {self.text[self.at:]}"
                self.at = match.end()
                elements += inside * self.number(match[1])
            elif self.text[self.at] == "*":
                assert depth == 0 and not self.starred, f"a second *: {self.text}"
                self.starred = True
                elements = self.star(elements)
                return elements
            else:
                elements += self.term()
            if not self.text.startswith(", ", self.at):
                return elements
            self.at += 2

    def star(self, before):
        """A starred group and all that stands after it."""
        self.at += 1
        inside = self.sequence(1)
        match = STAR_END.match(self.text, self.at)
        assert match, f"rep from * expected: {self.text[self.at:]}"
        self.at = match.end()
        after = []
        if self.text.startswith(", ", self.at):
            self.at += 2
            after = self.sequence(0)
        if match["more"] or match["once"]:
            times = 1 + (1 if match["once"] else self.number(match["more"]))
            return before + inside * times + after
        left = int(match["last"] or 0)
        assert left == width(after), f"{left} stitches are not left: {self.text}"
        room = self.stitches - left - width(before)
        assert room > 0 and room % width(inside) == 0, f"does not fit: {self.text}"
        return before + inside * (room // width(inside)) + after

    def term(self):
        if match := self.terms.space.match(self.text, self.at):
            self.at = match.end()
            chains = self.number(match[1])
            assert self.over_spaces == (match[2] is None), f"skips what is not there: {self.text}"
            # Over a space as many stitches as chains but one; stands_over checks it.
            return [(chains, self.number(match[2]) if match[2] else chains - 1)]
        match = self.terms.stitch.match(self.text, self.at)
        assert match, f"not understood: {self.text[self.at:]}"
        self.at = match.end()
        count = self.number(match[2]) if match[2] else 1
        assert match[2] != "1", f"one stitch needs no number: {self.text}"
        return ["x" if match[1] == self.terms.drop else "."] * count


def stands_over(elements, before):
    """Whether a WS row has a stitch over each stitch of the row before, a space over each space."""
    shapes = ["." if isinstance(e, str) else e for e in elements]
    return shapes == ["." if isinstance(e, str) else e for e in reversed(before)]


def read_line(match, design, size, rows, stitches, terms):
    sizes = len(design["sizes"])
    numbers = row_range(match["rows"], size, sizes)
    assert match["word"] == ("Rnd" if design["form"] == "tube" else "Row")
    if numbers is None:
        return
    (number,) = numbers
    assert number not in rows, "a row stands twice"
    over_space = design["technique"] == "inset" and match["side"] == "WS"
    if match["steps"] in terms.first:
        assert number == design["first"] and not design["foundation"]
        assert match["steps"] == terms.first[design["form"] == "tube"]
        elements = ["."] * stitches
    else:
        elements = Steps(match["steps"], terms, size, sizes, stitches, over_space).all()
        assert not over_space or stands_over(elements, rows[number - 1][2]), "lies otherwise"
        assert design["technique"] != "inset" or "to last" not in match["steps"]
    worked = sum(1 for e in elements if isinstance(e, str))
    assert int(of_size(match["count"], size, sizes)) == worked, "the count is wrong"
    spaces = int(of_size(match["spaces"] or "0", size, sizes))
    assert spaces == len(elements) - worked, "the count of chain spaces is wrong"
    rows[number] = (match["side"], match["colour"], elements)


def read_text(design, size, stitches, terms):
    names = [name for name, _, _ in design["sizes"]]
    rows = {}
    only = None
    for line in design["lines"]:
        try:
            if line.startswith("Size "):
                only = line[5:-1]
            elif only not in (None, names[size]):
                continue
            elif match := HEAD.fullmatch(line):
                read_line(match, design, size, rows, stitches, terms)
            elif match := AGAIN.fullmatch(line):
                read_repeat(match, size, len(names), rows)
            else:
                raise ValueError("not understood")
        except Exception as fault:
            raise ValueError(f"{line}: {fault}") from fault
    return rows


def read_repeat(match, size, sizes, rows):
    numbers = row_range(match["rows"], size, sizes)
    source = row_range(match["source"], size, sizes)
    times = int(of_size(match["times"] or ("2" if match["twice"] else "1"), size, sizes))
    if numbers is None:
        assert times == 0
        return
    assert len(numbers) == len(source) * times, "rows do not add up"
    for i, number in enumerate(numbers):
        assert number not in rows, "a row stands twice"
        rows[number] = rows[source[i % len(source)]]


def foundation_stitches(design, size, terms):
    """Stitches of the first row, from the note on the foundation."""
    (note,) = [note for note in design["notes"] if note.startswith("Foundation:")]
    tube = design["form"] == "tube"
    match = re.match(rf"Foundation: with colour (.+?) ch ({LIST})[,;. ]", note)
    assert match, note
    chains = int(of_size(match[2], size, len(design["sizes"])))
    colour = design["foundation"] or (design["colours"] or "A")[0]
    assert match[1] == design["names"].get(colour, colour), note
    assert ("join into a ring" in note) == tube, note
    assert (f"then {terms.plain} in" in note) == bool(design["foundation"]), note
    return chains if tube else chains - 1


def repeated(items, band, times):
    if band is None:
        return items
    first, last = band
    return items[:first - 1] + items[first - 1:last] * times + items[last:]


def side_of(row, design):
    if design["form"] == "tube" or design["technique"] == "overlay":
        return "RS"
    if design["technique"] == "inset" or design["facing"] == "two-face":
        return "RS" if row % 2 else "WS"
    if design["facing"] == "one-face":
        return "RS"
    return "RS" if (row - 1) // 2 % 2 == 0 else "WS"


def drops_of(design, size):
    """Rows of the size, bottom first: a set of drops by stitch, and the rows' colours."""
    _, wide, tall = design["sizes"][size]
    cells = [repeated(list(row), design["stitch_band"], wide) for row in design["cells"]]
    cells = repeated(cells, design["row_band"], tall)
    if design["colours"]:
        colours = repeated(list(design["colours"]), design["row_band"], tall)
    else:
        colours = ["AB"[i % 2] for i in range(len(cells))]
    if design["convention"] == "working":
        return [[cell == "x" for cell in row] for row in cells], colours
    # A picture's cell that shows another colour than its row's is covered by a drop of the row
    # above.
    off = [[cell != colour for cell in row] for row, colour in zip(cells, colours)]
    assert not any(off[-1])
    return [[False] * len(cells[0])] + off[:-1], colours


def merged(stitches):
    elements = []
    for stitch in stitches:
        if stitch != "s":
            elements.append(stitch)
        elif elements and not isinstance(elements[-1], str):
            elements[-1] = (elements[-1][0] + 1, elements[-1][1] + 1)
        else:
            elements.append((2, 1))
    return elements


def from_chart(design, size):
    """Rows by number, from the chart: expanded as it was given, then turned into stitches."""
    drops, colours = drops_of(design, size)
    worked = []
    for i, row in enumerate(drops):
        stitches = ["x" if drop else "." for drop in row]
        if design["technique"] != "inset":
            worked.append((i, stitches))
            continue
        skipped = drops[i + 1] if i + 1 < len(drops) else [False] * len(row)
        for first in (True, False):
            worked.append((i, ["s" if skip else stitch if first else "."
                               for stitch, skip in zip(stitches, skipped)]))
    rows = {}
    for n, (i, stitches) in enumerate(worked, 1):
        side = side_of(n, design)
        # Stitch 1 is at the right edge of face 1; a right-handed maker works from right to left.
        from_stitch_one = (side == "RS") == (design["hand"] == "right")
        in_order = stitches if from_stitch_one else stitches[::-1]
        colour = design["names"].get(colours[i], colours[i])
        rows[n + design["first"] - 1] = (side, colour, merged(in_order))
    return rows


def check_abbreviations(design, terms):
    """Exactly those that the rows and the words beside them use, each with its meaning."""
    text = "\n".join(design["lines"] + design["special_stitches"] + design["notes"][1:])
    for name in design["names"].values():
        text = text.replace(name, "")
    wanted = []
    for word in sorted(terms.abbreviations, key=len, reverse=True):
        pattern = re.compile(rf"(?<![A-Za-z0-9]){word}(?![A-Za-z0-9])")
        if pattern.search(text):
            wanted.append(f"{word} - {terms.abbreviations[word]}")
            text = pattern.sub("", text)
    assert sorted(wanted) == sorted(design["abbreviations"]), \
        f"abbreviations {design['abbreviations']}, used {wanted}"
    words = set(re.findall(r"[A-Za-z]+(?:-sps?)?", " ".join(
        match["steps"] for match in map(HEAD.fullmatch, design["lines"]) if match)))
    known = set(terms.abbreviations) | PLAIN_WORDS | {"nd", terms.skip, "rep"}
    assert words <= known, f"words that nothing explains: {words - known}"


def check(path):
    """What differs first, or None."""
    design = json.loads(path.read_text(encoding="utf-8"))
    terms = Terms(design["terms"] == "uk", design["technique"])
    for size, (name, _, _) in enumerate(design["sizes"]):
        expected = from_chart(design, size)
        stitches = width(expected[design["first"]][2])
        if foundation_stitches(design, size, terms) != stitches:
            return f"size {name}: the foundation does not fit"
        written = read_text(design, size, stitches, terms)
        if written.keys() != expected.keys():
            return f"size {name}: other rows than the chart"
        for number, row in expected.items():
            if written[number] != row:
                return f"size {name}, row {number}: {written[number]}, chart {row}"
    check_abbreviations(design, terms)
    return None


def main():
    paths = sorted(pathlib.Path(sys.argv[1]).glob("*.json"))
    faults = 0
    for path in paths:
        try:
            fault = check(path)
        except (AssertionError, ValueError, LookupError) as error:
            fault = f"{type(error).__name__}: {error}"
        if fault:
            print(f"{path.name}: {fault}")
            faults += 1
    if faults or not paths:
        sys.exit(1)
    print(f"{len(paths)} patterns agree with their charts")


if __name__ == "__main__":
    main()
