"""The log: nobody waits for who reads it, and what was dropped is counted."""

import os
import re
import threading
import unittest

import live_server

from rowproof.v1 import chart_pb2, chart_service_pb2, chart_service_pb2_grpc

# More than a pipe (64 KiB) and the lines that wait (256 KiB) hold.
MANY = 4000


class Reader:
    """The end of a pipe that is the server's standard error."""

    def __init__(self, server):
        self.end, standard_error = os.pipe()
        server.log.close()
        server.log = os.fdopen(standard_error, "ab")
        self.read = b""

    def start(self):
        def read():
            while piece := os.read(self.end, 1 << 16):
                self.read += piece
        self.thread = threading.Thread(target=read)
        self.thread.start()

    def lines(self):
        self.thread.join()
        return self.read.decode().splitlines()


class LogTest(unittest.TestCase):
    def start(self):
        server = live_server.Server()
        reader = Reader(server)
        # What start() says of a server that ended is in no file here.
        server.log_text = lambda: "(in the pipe)"
        server.start()
        server.log.close()  # the server alone has the pipe's other end
        return server, reader

    def call(self, server, count):
        request = chart_service_pb2.CheckChartRequest(design=chart_pb2.Design(
            chart=chart_pb2.Chart(row_count=1, stitch_count=3, cells=b"\0")))
        with server.channel() as channel:
            stub = chart_service_pb2_grpc.ChartServiceStub(channel)
            for done in range(0, count, 100):
                asked = [stub.CheckChart.future(request, timeout=60)
                         for _ in range(min(100, count - done))]
                for answer in asked:
                    self.assertTrue(answer.result().workable)

    def test_calls_are_answered_while_nobody_reads(self):
        server, reader = self.start()
        self.call(server, MANY)
        reader.start()
        self.call(server, 1)  # its line is the first that is not dropped, or comes after the count
        self.assertEqual(0, server.stop())
        lines = reader.lines()
        written = sum(" call method=" in line for line in lines)
        dropped = [int(found[1]) for line in lines
                   if (found := re.search(r" warning log dropped=(\d+)$", line))]
        self.assertLess(written, MANY)
        self.assertEqual(MANY + 1, written + sum(dropped))
        self.assertTrue(lines[-1].endswith("stopped"), lines[-1])

    def test_a_server_ends_though_nobody_reads(self):
        server, reader = self.start()
        self.call(server, MANY)
        self.assertEqual(0, server.stop())
        os.close(reader.end)

    def test_calls_are_answered_after_the_reader_went(self):
        server, reader = self.start()
        os.close(reader.end)
        self.call(server, 10)
        self.assertIsNone(server.process.poll())
        self.assertEqual(0, server.stop())


if __name__ == "__main__":
    unittest.main()
