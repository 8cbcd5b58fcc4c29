"""Work ends when nobody waits for it: the dearest requests, given up, cost the server no more.

What ends is measured by the server's own processor time. Here it is shown of what takes seconds, with
room for a busy machine; tests/long/stopping_test.py looks for 20 ms, of every method, on a quiet one.
"""

import os
import signal
import time
import unittest

import dear_requests
import live_server

import grpc
from rowproof.v1 import chart_service_pb2_grpc

TICK = 1 / os.sysconf("SC_CLK_TCK")
# Of these the whole work takes seconds, so that it is not by chance that nothing was left to do.
LONG_CANCELLED = ("repair of colours", "repair with symmetry", "repair with a limit on runs", "import",
                  "rows", "calibration by pictures", "PNG of a chart", "PNG of a face")
LONG_EXPIRED = ("repair with a limit on runs", "import", "rows", "calibration by pictures",
                "PNG of a chart", "PNG of a face")
PATIENCE = 60  # for what comes as soon as the machine has time


def sanitized():
    with open(os.path.join(live_server.BUILD, "rowproofd"), "rb") as program:
        return b"__asan_init" in program.read()


# A sanitized server takes up to 20 times as long over a cell, and gets smaller charts.
SLOWER = 20 if sanitized() else 1
# So much time of the server's shows that the work has begun: reading a request of 16 MB takes less.
BEGUN = 0.15 if SLOWER == 1 else 0.4


class StoppingTest(unittest.TestCase):
    # From the word that nobody waits to the end of the work, in seconds of the server's own time.
    most_after = 0.5
    # From SIGTERM to the server's end, with 5 seconds for requests in flight; a busy machine also stops
    # PostgreSQL slowly.
    most_to_end = 9
    cancelled = LONG_CANCELLED
    expired = LONG_EXPIRED

    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server("--shutdown-seconds", "5").start()
        cls.stub = chart_service_pb2_grpc.ChartServiceStub(cls.server.channel())
        cls.requests = dear_requests.requests(dear_requests.MOST if SLOWER == 1 else 800)

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    def cpu(self):
        with open("/proc/%d/stat" % self.server.process.pid) as stat:
            fields = stat.read().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) * TICK

    def served(self):
        """The status of each request that has ended, in their order."""
        return [line.split(" status=")[1].split()[0]
                for line in self.server.log_text().splitlines() if " call method=" in line]

    def until(self, holds, what):
        end = time.monotonic() + PATIENCE * SLOWER
        while not holds():
            self.assertLess(time.monotonic(), end, what)
            time.sleep(0.001)

    def send(self, name, **options):
        method, request = self.requests[name]
        return getattr(self.stub, method).future(request, **options)

    def after_given_up(self, name, call, before):
        """The status, and the time that the server took between `call` being given up and its end."""
        at = self.cpu()
        self.until(lambda: len(self.served()) > before, name + " has not ended")
        return self.served()[-1], self.cpu() - at

    def test_a_cancelled_request_costs_no_more(self):
        stopped = []
        for name in self.cancelled or self.requests:
            with self.subTest(name):
                before = len(self.served())
                start = self.cpu()
                call = self.send(name, timeout=PATIENCE * SLOWER)
                self.until(lambda: call.done() or self.cpu() - start > BEGUN, name)
                call.cancel()
                status, after = self.after_given_up(name, call, before)
                self.assertLess(after, self.most_after * SLOWER, status)
                self.assertIn(status, ("CANCELLED", "OK"))
                if status == "CANCELLED":
                    stopped.append(name)
        for name in LONG_CANCELLED:
            self.assertIn(name, stopped)

    def test_an_expired_request_costs_no_more(self):
        stopped = []
        for name in self.expired or self.requests:
            with self.subTest(name):
                before = len(self.served())
                call = self.send(name, timeout=0.3 if SLOWER == 1 else 3)
                error = call.exception(timeout=PATIENCE * SLOWER)
                status, after = self.after_given_up(name, call, before)
                self.assertLess(after, self.most_after * SLOWER, status)
                if error is not None:
                    self.assertEqual(grpc.StatusCode.DEADLINE_EXCEEDED, error.code())
                    stopped.append(name)
        for name in LONG_EXPIRED:
            self.assertIn(name, stopped)

    def test_a_server_that_is_told_to_end_waits_so_long_and_no_longer(self):
        for name in ("repair with a limit on runs", "repair with symmetry"):
            server = live_server.Server("--shutdown-seconds", "5").start()
            stub = chart_service_pb2_grpc.ChartServiceStub(server.channel())
            method, request = self.requests[name]
            calls = [getattr(stub, method).future(request, timeout=600) for _ in range(4)]
            pid = server.process.pid

            def cpu():
                with open("/proc/%d/stat" % pid) as stat:
                    return int(stat.read().rsplit(")", 1)[1].split()[11]) * TICK

            self.until(lambda: cpu() > 3 * BEGUN, name)
            begin = time.monotonic()
            server.process.send_signal(signal.SIGTERM)
            server.process.wait(timeout=PATIENCE)
            took = time.monotonic() - begin
            for call in calls:
                call.cancel()
            self.assertEqual(0, server.stop())
            self.assertLess(took, self.most_to_end if SLOWER == 1 else 20, name)


if __name__ == "__main__":
    unittest.main()
