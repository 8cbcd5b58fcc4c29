"""Joins sources that may be compiled together: join_sources.py TOP OUTPUT <LIST

Most of a file's compilation goes into the headers that it reads, so several files in one are built in
a fraction of the time. What a file keeps to itself (names in its unnamed namespace, its macros) must
then mean nothing in its neighbours: files are joined only where no such name of one occurs in another
or in our headers that the other reads.
The list has lines TARGET|SOURCE, and what is printed lines TARGET|FILE: the files to compile, which
lie below OUTPUT. They include by paths relative to TOP, so that a compiler cache knows them in any
checkout.
"""

import pathlib
import re
import sys

# Beyond this, a longer file keeps one core busy while the other has nothing left to do.
LONGEST_GROUP = 3000  # lines

IDENTIFIER = re.compile(r"[A-Za-z_]\w*")
NOISE = re.compile(r'//[^\n]*|/\*.*?\*/|"(?:\\.|[^"\\\n])*"|\'(?:\\.|[^\'\\\n])*\'', re.S)
TYPE = re.compile(r"^(?:template <.*> )?(?:struct|class|enum class|enum|union|using|namespace) (\w+)")
INCLUDE = re.compile(r'^#include "([^"]+)"', re.M)
MACRO = re.compile(r"^#\s*define\s+(\w+)", re.M)
# A function's or variable's name: the last word before its parameters, value, size or end.
DECLARED = re.compile(r"([A-Za-z_]\w*)\s*(?:\(|=|\[|\{|;|$)")


def declared(text, everywhere):
    """The names that a file declares in its unnamed namespace, or everywhere, each with what is the
    same in every file that says it so. The sources are formatted: what a namespace holds begins in
    the first column."""
    names = {name: object() for name in MACRO.findall(text)}
    inside = everywhere
    for line in text.splitlines():
        if re.match(r"namespace \{", line):
            inside = True
        elif line.startswith("}  // namespace"):
            inside = everywhere
        elif re.match(r"using [\w:]+;", line):
            names[re.split(r"[: ]+", line[:-1])[-1]] = line
        elif re.match(r"(static|namespace \w+ =) ", line) or inside and re.match(r"[A-Za-z_]", line):
            found = TYPE.match(line) or DECLARED.search(line)
            if found and not found.group(1).isupper():  # TEST(...) and other macros' calls
                names[found.group(1)] = object()
    return names


class File:
    def __init__(self, path):
        raw = path.read_text()
        # "}  // namespace" is the one comment that says something here.
        self.text = NOISE.sub(
            lambda m: m.group() if m.group().startswith("// namespace") else '""', raw)
        self.lines = raw.count("\n")
        self.includes = INCLUDE.findall(raw)


class Headers:
    """What our headers declare, with all that they include."""

    def __init__(self, top):
        self.top = top
        self.known = {}

    def names(self, includes):
        found = set()
        for name in includes:
            if name not in self.known:
                self.known[name] = set()  # a header that includes itself has nothing to add
                path = self.top / name
                if path.is_file():
                    header = File(path)
                    self.known[name] = set(declared(header.text, True)) | self.names(header.includes)
            found |= self.known[name]
        return found


class Source(File):
    def __init__(self, path, headers):
        super().__init__(path)
        self.path = path
        self.own = declared(self.text, False)
        self.all = set(IDENTIFIER.findall(self.text)) | headers.names(self.includes)

    def disturbs(self, other):
        return any(name in other.all and other.own.get(name) != meaning
                   for name, meaning in self.own.items())


def groups_of(sources):
    groups = []
    for source in sources:
        for group in groups:
            if sum(other.lines for other in group) + source.lines <= LONGEST_GROUP and not any(
                    source.disturbs(other) or other.disturbs(source) for other in group):
                group.append(source)
                break
        else:
            groups.append([source])
    return groups


def main(top, output):
    top, output = pathlib.Path(top), pathlib.Path(output)
    targets = {}
    for line in sys.stdin.read().splitlines():
        target, path = line.split("|")
        targets.setdefault(target, []).append(pathlib.Path(path))
    headers = Headers(top)
    kept = set()
    for target, paths in targets.items():
        (output / target).mkdir(parents=True, exist_ok=True)
        for group in groups_of([Source(path, headers) for path in sorted(paths)]):
            # Named for its first source, so that a new source does not rename all that follow.
            first = group[0].path.relative_to(top).with_suffix("")
            file = output / target / ("_".join(first.parts) + ".cc")
            text = "".join('#include "%s"\n' % source.path.relative_to(top) for source in group)
            if not file.exists() or file.read_text() != text:
                file.write_text(text)
            kept.add(file)
            print("%s|%s" % (target, file))
    for file in output.glob("*/*.cc"):
        if file not in kept:
            file.unlink()


if __name__ == "__main__":
    main(*sys.argv[1:])
