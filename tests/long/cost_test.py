"""What the dearest requests cost the server: time, peak of memory, size of the answer, and whether memory
is given back. Prints the table of proto/README.md. For a quiet machine and the release build; run by hand:

    ROWPROOF_BUILD=$PWD/build/release /usr/bin/python3 tests/long/cost_test.py
"""

import os
import pathlib
import sys
import time
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import dear_requests
import live_server

import grpc
from rowproof.v1 import chart_service_pb2_grpc

TICK = 1 / os.sysconf("SC_CLK_TCK")
MOST_MIB = 400  # of one request, beside what the server has at rest
AT_REST_MIB = 200
WITHIN = 10  # seconds
PATIENCE = 600
REFUSED = ("calibration by wide pictures",)  # once the budget of all pictures is spent


class CostTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server("--memory-mib", "0").start()
        self.addCleanup(self.server.stop)
        self.stub = chart_service_pb2_grpc.ChartServiceStub(self.server.channel())

    def process(self, name):
        return "/proc/%d/%s" % (self.server.process.pid, name)

    def cpu(self):
        with open(self.process("stat")) as stat:
            fields = stat.read().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) * TICK

    def mib(self, of):
        with open(self.process("status")) as status:
            return int(next(line for line in status if line.startswith(of)).split()[1]) / 1024

    def forget_peak(self):
        with open(self.process("clear_refs"), "w") as file:
            file.write("5")

    def at_rest(self):
        """MiB after some seconds, as soon as it is little."""
        end = time.monotonic() + WITHIN
        while time.monotonic() < end and self.mib("VmRSS") > AT_REST_MIB:
            time.sleep(0.1)
        return self.mib("VmRSS")

    def test_the_dearest_requests(self):
        print("%-30s %10s %10s %8s %9s %9s" % ("", "bytes in", "bytes out", "CPU s", "peak MiB",
                                               "rest MiB"))
        for name, (method, request) in dear_requests.requests(dear_requests.MOST).items():
            with self.subTest(name):
                self.forget_peak()
                before, start = self.mib("VmRSS"), self.cpu()
                try:
                    answer = str(getattr(self.stub, method)(request, timeout=PATIENCE).ByteSize())
                except grpc.RpcError as error:
                    answer = error.code().name
                took, peak, rest = self.cpu() - start, self.mib("VmHWM") - before, self.at_rest()
                print("%-30s %10d %10s %8.2f %9.0f %9.0f" % (name, request.ByteSize(), answer, took,
                                                            peak, rest))
                if name in REFUSED:
                    self.assertEqual("RESOURCE_EXHAUSTED", answer)
                else:
                    self.assertNotIn(answer, ("RESOURCE_EXHAUSTED", "INTERNAL"))
                self.assertLess(peak, MOST_MIB)
                self.assertLess(rest, AT_REST_MIB)


if __name__ == "__main__":
    unittest.main()
