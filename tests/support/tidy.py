"""Reads sources with clang-tidy: tidy.py BUILD [MINUTES], where BUILD has compile_commands.json.

Sources that are built together are read together, since most of the time goes into the headers; those
that were changed last come first. After MINUTES no more are begun, and how many are left is said. What
was read before without a finding is not read again, in whatever folder the checkout lies: its
preprocessed text, the rules and the tool are the same. Exits with 1 if there is a finding.
"""

import concurrent.futures
import hashlib
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys
import time

TOP = pathlib.Path(__file__).resolve().parent.parent.parent
KNOWN = pathlib.Path(os.environ.get("XDG_CACHE_HOME") or pathlib.Path.home() / ".cache") / \
    "rowproof-tidy"
TIDY = "clang-tidy-14"
# What joins sources includes .cc files.
CHECKS = "--checks=-bugprone-suspicious-include"


def fixed_part():
    version = subprocess.run([TIDY, "--version"], check=True, stdout=subprocess.PIPE).stdout
    return version + (TOP / ".clang-tidy").read_bytes() + CHECKS.encode()


def key_of(command, fixed):
    """Of the text that the compiler sees with comments (they may say NOLINT), and its flags."""
    words = shlex.split(command["command"])
    at = words.index("-o")
    words = words[:at] + words[at + 2:]
    text = subprocess.run([*words, "-E", "-CC", "-o", "-"], cwd=command["directory"], check=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout
    ours = str(TOP).encode()
    return hashlib.sha256(b"\0".join([
        fixed, " ".join(words).encode().replace(ours, b""), text.replace(ours, b"")])).hexdigest()


def read(command, build, fixed):
    """What clang-tidy found in one group of sources; empty for nothing."""
    try:
        known = KNOWN / key_of(command, fixed)
    except subprocess.CalledProcessError:
        known = None  # clang-tidy says what is wrong
    if known and known.exists():
        known.touch()
        return ""
    done = subprocess.run([TIDY, "-p", build, "--quiet", CHECKS, command["file"]],
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    if done.returncode == 0:
        if known:
            known.touch()
        return ""
    return done.stdout or "clang-tidy failed on " + command["file"]


def newest_first(commands):
    """Those with a source that a later commit changed before the others; by name within a commit."""
    log = subprocess.run(["git", "log", "--format=", "--name-only", "--no-renames", "-n", "200"], cwd=TOP,
                         check=True, stdout=subprocess.PIPE, text=True).stdout
    place = {}
    for name in log.split("\n"):
        place.setdefault(name, len(place))

    def newest(command):
        joined = pathlib.Path(command["directory"], command["file"])
        names = re.findall(r'#include "([^"]+\.cc)"', joined.read_text()) or [str(joined)]
        return min(place.get(os.path.relpath(TOP / name, TOP), len(place)) for name in names)
    return sorted(commands, key=lambda command: (newest(command), command["file"]))


def forget_old():
    month_ago = time.time() - 30 * 86400
    for known in KNOWN.iterdir():
        if known.stat().st_mtime < month_ago:
            known.unlink()


def main(build, minutes=None):
    KNOWN.mkdir(parents=True, exist_ok=True)
    forget_old()
    fixed = fixed_part()
    commands = newest_first([
        command for command in json.loads((pathlib.Path(build) / "compile_commands.json").read_text())
        if "/generated/" not in command["file"]])
    begun = said = time.monotonic()
    end = begun + 60 * float(minutes) if minutes else float("inf")
    clean = True
    left = 0
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        done = [pool.submit(lambda command: read(command, build, fixed)
                            if time.monotonic() < end else None, command) for command in commands]
        for count, one in enumerate(done, 1):
            found = one.result()
            left += found is None
            if found:
                clean = False
                print(found, flush=True)
            if time.monotonic() - said > 8 or count == len(done):
                said = time.monotonic()
                print("Reading with clang-tidy: %d of %d" % (count - left, len(done)), flush=True)
    if left:
        print("clang-tidy had no time for %d of %d groups of sources." % (left, len(done)))
    return 0 if clean else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
