"""Reads the commands of a document and what they should print.

A document marks what is run like this; a reader sees only the blocks:

- ```sh: every line is a command that exits with 0. A line that ends in \\ or | continues in the next.
- ```console: a line that begins with "$ " is a command; the lines below it are what it prints.
  There "..." alone on a line stands for any lines, and "..." within a line for any text.
- "# exits with N" at the end of a command: it exits with N.
- <!-- setup ... --> before a block: commands that a reader does not need.
- <!-- names WORD = PATTERN --> after a block: WORD in later commands stands for the last match of the
  regular expression in the output of the block's last command, as "VERSION" for patterns/x/versions/1.
- <!-- not run: WHY --> before a block: its programs only have to exist.

All blocks of a document run in one scratch folder, in order.
"""

import dataclasses
import re

EXITS = re.compile(r"\s+# exits with (\d+)$")
COMMENT = re.compile(r"<!--\s*(setup|names|not run:)(.*?)-->", re.DOTALL)
BLOCK = re.compile(r"^( *)```(sh|console)\n(.*?)^ *```$", re.DOTALL | re.MULTILINE)


@dataclasses.dataclass
class Command:
    line: int  # in the document, from 1
    text: str
    exits: int = 0
    prints: list = None  # lines; None: not given
    run: bool = True


@dataclasses.dataclass
class Name:
    word: str
    pattern: str


def steps_of(text):
    """Commands and names, in order."""
    found = [(match.start(), match) for match in COMMENT.finditer(text)]
    found += [(match.start(), match) for match in BLOCK.finditer(text)]
    steps, why = [], None
    for start, match in sorted(found, key=lambda each: each[0]):
        line = text.count("\n", 0, start) + 1
        if match.re is BLOCK:
            steps += commands_of(match, line + 1, why is None)
            why = None
        elif match[1] == "setup":
            steps += [Command(line, part) for part in joined(match[2].splitlines())]
        elif match[1] == "names":
            word, pattern = match[2].strip().split(" = ")
            steps.append(Name(word, pattern))
        else:
            why = match[2].strip()
            if not why:
                raise ValueError("line %d: not run, but no reason" % line)
    return steps


def joined(lines):
    """Joins continued lines; leaves out empty lines and comments."""
    whole = ""
    for line in lines:
        whole += line
        if whole.rstrip().endswith("\\"):
            whole = whole.rstrip()[:-1]
        elif whole.rstrip().endswith("|"):
            whole += " "
        else:
            if whole.strip() and not whole.lstrip().startswith("#"):
                yield whole.strip()
            whole = ""
    if whole.strip():
        raise ValueError("a continued command ends: " + whole)


def commands_of(block, line, run):
    indent = len(block[1])
    lines = [each[indent:] for each in block[3].splitlines()]
    if block[2] == "sh":
        return [with_exit(line, text, None, run) for text in joined(lines)]
    commands, at = [], 0
    while at < len(lines):
        if not lines[at].startswith("$ "):
            raise ValueError("line %d: no command before this output" % (line + at))
        first, text = at, lines[at][2:]
        while text.rstrip().endswith(("\\", "|")):
            at += 1
            text = text.rstrip().removesuffix("\\") + " " + lines[at].strip()
        at += 1
        printed = []
        while at < len(lines) and not lines[at].startswith("$ "):
            printed.append(lines[at].rstrip())
            at += 1
        commands.append(with_exit(line + first, text, printed, run))
    return commands


def with_exit(line, text, prints, run):
    exits = EXITS.search(text)
    return Command(line, EXITS.sub("", text), int(exits[1]) if exits else 0, prints, run)


def replaced(text, names):
    """The text with names in place of words, the longest word first."""
    for word in sorted(names, key=len, reverse=True):
        text = re.sub(r"(?<![\w-])%s(?![\w-])" % re.escape(word), lambda _: names[word], text)
    return text


def difference(expected, printed):
    """None if `printed` is as expected, otherwise a sentence."""
    pattern = "".join(
        r"(?:.*\n)*?" if line.strip() == "..."
        else ".*?".join(re.escape(part) for part in line.split("...")) + r"[ ]*\n"
        for line in expected)
    text = "".join(line.rstrip() + "\n" for line in printed.splitlines())
    if re.fullmatch(pattern, text):
        return None
    return "the document says\n%s\nand the command printed\n%s" % ("\n".join(expected), text)
