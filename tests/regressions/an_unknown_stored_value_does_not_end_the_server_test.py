"""A stored value that the build did not know ended the server, with everybody's requests."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_server  # noqa: E402
import patterns_test  # noqa: E402

import grpc  # noqa: E402
from rowproof.v1 import pattern_service_pb2 as patterns  # noqa: E402
from rowproof.v1 import pattern_service_pb2_grpc  # noqa: E402


class UnknownStoredValue(unittest.TestCase):
    def setUp(self):
        self.server = live_server.Server().start()
        _, self.token = self.server.new_designer()
        self.stub = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel(self.token))
        pattern = self.stub.CreatePattern(patterns.CreatePatternRequest(
            title="Invented shawl", request_id=live_server.request_id())).name
        self.version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=pattern, content=patterns_test.content(patterns_test.picture(8, 9)),
            request_id=live_server.request_id())).name

    def tearDown(self):
        self.assertEqual(0, self.server.stop())

    def read(self):
        return self.stub.GetVersion(patterns.GetVersionRequest(name=self.version))

    def test_it_is_data_loss_and_the_server_goes_on(self):
        for column, value in (("findings", "'secretive nonsense'"),
                              ("estimates", "replace(estimates, '\"part\":', '\"secretive\":')"),
                              ("content", "substring(content for 60)"),
                              ("content_hash", "'\\x736563726574697665'")):
            self.server.psql("create table kept as table version;"
                             "alter table version drop constraint if exists"
                             " version_content_hash_check")
            self.server.psql("update version set %s = %s" % (column, value))
            with self.assertRaises(grpc.RpcError) as refused:
                self.read()
            self.assertEqual(grpc.StatusCode.DATA_LOSS, refused.exception.code(), column)
            details = live_server.details_of(refused.exception)
            self.assertEqual("STORED_VALUE_UNREADABLE", details["ErrorInfo"].reason)
            self.assertEqual({"table": "version", "column": column},
                             dict(details["ErrorInfo"].metadata))
            self.assertEqual(self.version, details["ResourceInfo"].resource_name)
            self.assertNotIn("secretive", refused.exception.details())
            self.server.psql("update version set %s = (select %s from kept); drop table kept"
                             % (column, column))
            self.assertEqual(self.version, self.read().name)
        log = self.server.log_text()
        self.assertRegex(log, r"unreadable transaction=\S+ table=version column=findings ")
        self.assertIn("column=estimates field=colours.parts.part resource=" + self.version, log)
        self.assertNotIn("secretive", log)


if __name__ == "__main__":
    unittest.main()
