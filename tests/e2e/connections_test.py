"""The listener survives more connections than the process has files for."""

import os
import resource
import socket
import time
import unittest

import live_server

import grpc

BURST = 1100
FILES = 1024


def serving(server):
    """Asks on a connection of its own, at most two seconds."""
    # Channels of one address share a connection otherwise.
    options = [("grpc.use_local_subchannel_pool", 1)]
    with grpc.insecure_channel(server.address, options=options) as channel:
        answer = channel.unary_unary("/grpc.health.v1.Health/Check", request_serializer=bytes,
                                     response_deserializer=bytes)
        return answer(b"", timeout=2)


def open_files_limit(process):
    with open("/proc/%d/limits" % process) as limits:
        line = next(line for line in limits if line.startswith("Max open files"))
    return [int(word) for word in line.split()[3:5]]


class ConnectionsTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        soft, hard = resource.getrlimit(resource.RLIMIT_NOFILE)
        resource.setrlimit(resource.RLIMIT_NOFILE, (min(hard, 4096), hard))

    def start(self, *limits):
        server = live_server.Server()
        server.prefix = ["prlimit", "--nofile=" + ":".join(str(limit) for limit in limits)]
        self.addCleanup(server.stop)
        return server.start()

    def burst(self, server):
        host, port = server.address.rsplit(":", 1)
        connections = []
        for _ in range(BURST):
            connections.append(socket.create_connection((host, int(port)), timeout=10))
        return connections

    def test_a_burst_beyond_the_files_that_the_server_may_have(self):
        server = self.start(FILES, FILES)
        first = server.channel()
        health = first.unary_unary("/grpc.health.v1.Health/Check", request_serializer=bytes,
                                   response_deserializer=bytes)
        self.assertEqual(b"\x08\x01", health(b"", timeout=10))
        connections = self.burst(server)
        try:
            # Those that are served already are served on, with files for the database and for more.
            self.assertEqual(b"\x08\x01", health(b"", timeout=10))
            self.assertTrue(server.new_designer()[1])
            self.assertLess(len(os.listdir("/proc/%d/fd" % server.process.pid)), FILES)
        finally:
            for connection in connections:
                connection.close()
        begin = time.monotonic()
        self.assertEqual(b"\x08\x01", serving(server))
        self.assertLess(time.monotonic() - begin, 2)
        self.assertNotIn("listener answers=false", server.log_text())

    def test_the_server_takes_the_files_that_it_may_have(self):
        server = self.start(FILES, 2048)
        self.assertEqual([2048, 2048], open_files_limit(server.process.pid))
        connections = self.burst(server)
        try:
            self.assertEqual(b"\x08\x01", serving(server))
        finally:
            for connection in connections:
                connection.close()

    def test_bursts_without_end(self):
        server = self.start(FILES, FILES)
        end = time.monotonic() + 3
        while time.monotonic() < end:
            for connection in self.burst(server):
                connection.close()
        self.assertEqual(b"\x08\x01", serving(server))


if __name__ == "__main__":
    unittest.main()
