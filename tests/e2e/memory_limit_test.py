"""A server without a proxy: a client that resets requests without end takes no more memory than the
server may have, and the server starts again before that."""

import os
import re
import socket
import ssl
import threading
import time
import unittest

import live_server
import rapid_reset
from certificates import make_certificates

import grpc
from rowproof.v1 import account_service_pb2, account_service_pb2_grpc

LIMIT_MIB = 1024
SECONDS = 8


def resident_mib(process):
    with open("/proc/%d/status" % process) as status:
        found = re.search(r"VmRSS:\s+(\d+) kB", status.read())
        return int(found[1]) // 1024 if found else 0  # none between two programs


def serves(server, credentials=None, seconds=5):
    """By a connection of its own, which is tried again until then."""
    options = [("grpc.use_local_subchannel_pool", 1), ("grpc.initial_reconnect_backoff_ms", 100),
               ("grpc.max_reconnect_backoff_ms", 200)]
    channel = grpc.insecure_channel(server.address, options=options) if credentials is None else \
        grpc.secure_channel(server.address, credentials, options=options)
    with channel:
        health = channel.unary_unary("/grpc.health.v1.Health/Check", request_serializer=bytes,
                                     response_deserializer=bytes)
        return health(b"", timeout=seconds, wait_for_ready=True) == b"\x08\x01"


class MemoryLimitTest(unittest.TestCase):
    def start(self, *options, listen="127.0.0.1:0"):
        server = live_server.Server("--memory-mib", str(LIMIT_MIB), *options)
        self.addCleanup(server.stop)
        return server if listen is None else server.start(listen)

    def flood(self, server, seconds=SECONDS, until=lambda: False, context=None):
        """Resets requests for some seconds; the most memory that the server had."""
        host, port = server.address.rsplit(":", 1)
        ending = threading.Event()

        def connect():
            connection = socket.create_connection((host, int(port)), timeout=5)
            return context.wrap_socket(connection, server_hostname=host) if context else connection

        def attack():
            while not ending.is_set():
                try:
                    rapid_reset.reset_requests(connect, 1 << 20)
                except OSError:
                    time.sleep(0.05)  # it is starting again
        attacker = threading.Thread(target=attack)
        attacker.start()
        largest, begin = 0, time.monotonic()
        try:
            while time.monotonic() - begin < seconds and not until():
                largest = max(largest, resident_mib(server.process.pid))
                time.sleep(0.005)
        finally:
            ending.set()
            attacker.join()
        return largest

    def test_it_starts_again_before_its_memory_is_gone(self):
        server = self.start()
        postmaster = server.postmaster()
        token = server.new_designer()[1]
        largest = self.flood(server)
        begin = time.monotonic()
        self.assertTrue(serves(server))
        print("server at most %d MiB, serving again after %.1f s, started again %d times" % (
            largest, time.monotonic() - begin, server.log_text().count("starting_again=true")))
        self.assertLess(time.monotonic() - begin, 5)
        self.assertLess(largest, LIMIT_MIB)
        self.assertIn("starting_again=true", server.log_text())
        # The same process, the same PostgreSQL, and what was acknowledged.
        self.assertIsNone(server.process.poll())
        self.assertEqual(postmaster, server.postmaster())
        account = account_service_pb2_grpc.AccountServiceStub(server.channel(token))
        account.GetMyAccount(account_service_pb2.GetMyAccountRequest(), timeout=10)
        self.assertEqual(0, server.stop())

    def test_it_listens_again_with_keys_that_only_root_may_read(self):
        server = self.start(listen=None)
        make_certificates(server.folder)
        server.options += ["--tls-certificate", os.path.join(server.folder, "server.pem"),
                           "--tls-key", os.path.join(server.folder, "server.key")]
        os.chmod(os.path.join(server.folder, "server.key"), 0o600)
        server.start(listen="localhost:0")
        authority = os.path.join(server.folder, "ca.pem")
        with open(authority, "rb") as file:
            credentials = grpc.ssl_channel_credentials(file.read())
        context = ssl.create_default_context(cafile=authority)
        context.set_alpn_protocols(["h2"])
        self.assertTrue(serves(server, credentials))
        # Twice: what it kept to start again, it keeps then as well.
        for times in (1, 2):
            self.flood(server, 60, context=context,
                       until=lambda: server.log_text().count("listening address=") > times)
            self.assertEqual(times + 1, server.log_text().count("listening address="))
            self.assertTrue(serves(server, credentials))
        self.assertEqual(0, server.stop())


if __name__ == "__main__":
    unittest.main()
