"""The fields of the canonical encoding that services/domain/releases/canonical.h describes, written
apart from the service's own code, for the generators beside this file.
"""
import struct


def u(tag, value):
    return bytes([tag]) + b"u" + struct.pack(">I", value)


def d(tag, value):
    return bytes([tag]) + b"d" + struct.pack(">d", value)


def counted(body):
    return struct.pack(">I", len(body)) + body


def s(tag, text):
    return bytes([tag]) + b"s" + counted(text.encode("utf-8"))


def b(tag, body):
    return bytes([tag]) + b"b" + counted(body)


def r(tag, body):
    return bytes([tag]) + b"r" + counted(body)


def l(tag, bodies):
    return bytes([tag]) + b"l" + struct.pack(">I", len(bodies)) + b"".join(map(counted, bodies))


def cells(lines):
    rows = b""
    for line in reversed(lines):  # from the bottom; stitch 1 is the line's last character
        bits = sum(1 << i for i, cell in enumerate(reversed(line)) if cell == "x")
        rows += bits.to_bytes((len(line) + 7) // 8, "little")
    return rows


def show(version_format, content):
    """Prints the encoding as lines of hexadecimal digits."""
    encoding = (struct.pack(">I", version_format) + content).hex()
    for at in range(0, len(encoding), 96):
        print(encoding[at:at + 96])


# The assumption's table: stitch pitches, row heights, turns of yarn.
PATHS = [(3, 0, 1), (3, 2, 2), (3, 6, 2), (4, 6, 3), (4, 9, 3), (2, 0, 1)]
