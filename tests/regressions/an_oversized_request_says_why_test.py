"""A request over the limit was refused by gRPC itself, without ErrorInfo; compressed ones could come to
any size."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402

import grpc  # noqa: E402
from rowproof.v1 import chart_pb2, chart_service_pb2, chart_service_pb2_grpc  # noqa: E402

LIMIT = 20 << 20


def request(size):
    return chart_service_pb2.ImportChartRequest(
        file=chart_pb2.ChartFile(content=b"\0" * size))


class OversizedRequestTest(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()

    def tearDown(self):
        self.assertEqual(0, self.server.stop())

    def refusal(self, size, **options):
        with self.assertRaises(grpc.RpcError) as caught:
            chart_service_pb2_grpc.ChartServiceStub(self.server.channel()).ImportChart(
                request(size), timeout=60, **options)
        return caught.exception

    def test_a_request_over_the_limit_has_error_info(self):
        for size in (LIMIT, LIMIT + (1 << 20), 3 * LIMIT):
            error = self.refusal(size)
            self.assertEqual(grpc.StatusCode.RESOURCE_EXHAUSTED, error.code())
            info = live_server.details_of(error)["ErrorInfo"]
            self.assertEqual("REQUEST_TOO_LARGE", info.reason)
            self.assertEqual(str(LIMIT), info.metadata["most_bytes"])
            self.assertIn("at most %d bytes (got %d)" % (LIMIT, request(size).ByteSize()),
                          error.details())

    def test_a_request_within_the_limit_is_read(self):
        error = self.refusal(LIMIT - 100)
        self.assertNotEqual("REQUEST_TOO_LARGE", live_server.details_of(error)["ErrorInfo"].reason)

    def test_a_compressed_request_is_refused(self):
        error = self.refusal(LIMIT, compression=grpc.Compression.Gzip)
        self.assertEqual(grpc.StatusCode.UNIMPLEMENTED, error.code())


if __name__ == "__main__":
    unittest.main()
