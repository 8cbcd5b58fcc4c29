"""A client that begins requests and resets them at once, by HTTP/2's own frames (RFC 9113)."""

import socket
import struct

PREFACE = b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n"
HEADERS, RESET, SETTINGS = 1, 3, 4
END_HEADERS = 4
CANCEL = struct.pack(">I", 8)


def frame(kind, flags, stream, payload):
    return struct.pack(">I", len(payload))[1:] + bytes([kind, flags]) + struct.pack(">I", stream) + \
        payload


def literal(name, value):
    """A header without an index, names and values shorter than 127 bytes (RFC 7541, 6.2.2)."""
    return b"\0" + bytes([len(name)]) + name + bytes([len(value)]) + value


REQUEST = b"".join(literal(name, value) for name, value in (
    (b":method", b"POST"), (b":scheme", b"http"), (b":authority", b"localhost"),
    (b":path", b"/rowproof.v1.ChartService/CheckChart"), (b"content-type", b"application/grpc"),
    (b"te", b"trailers")))


def reset_requests(connect, count):
    """How many were sent until the peer closed the connection, `count` at most."""
    sent = 0
    with connect() as connection:
        connection.settimeout(5)
        try:
            connection.sendall(PREFACE + frame(SETTINGS, 0, 0, b""))
            while sent < count:
                some = min(500, count - sent)
                connection.sendall(b"".join(
                    frame(HEADERS, END_HEADERS, 2 * (sent + i) + 1, REQUEST) +
                    frame(RESET, 0, 2 * (sent + i) + 1, CANCEL) for i in range(some)))
                sent += some
                drain(connection)
        except (OSError, socket.timeout):
            pass
    return sent


def drain(connection):
    """What the peer says is of no interest, but must not fill its buffers."""
    connection.settimeout(0)
    try:
        while connection.recv(1 << 16):
            pass
        raise ConnectionResetError
    except BlockingIOError:
        pass
    except OSError as error:  # TLS says in its own way that there is nothing
        if "read" not in type(error).__name__.lower():
            raise
    finally:
        connection.settimeout(5)
