"""A release was withdrawn for a reason of ten blanks, which its readers were then shown; passing a gate
over took no such reason."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_calls  # noqa: E402

import grpc  # noqa: E402
from rowproof.v1 import release_pb2  # noqa: E402
from rowproof.v1 import release_service_pb2 as releases  # noqa: E402
from rowproof.v1 import release_service_pb2_grpc  # noqa: E402


class BlankReasonTest(live_calls.LiveTest):
    def test_blanks_are_no_reason(self):
        stub = release_service_pb2_grpc.ReleaseServiceStub(self.server.channel(self.token))
        pattern = self.pattern()
        version = pattern + "/versions/1"
        open_gates = [gate.code for gate in stub.GetGates(
            releases.GetGatesRequest(version=version)).gates
                      if gate.state == release_pb2.GATE_STATE_OPEN]
        name = stub.CreateRelease(releases.CreateReleaseRequest(
            parent=pattern, version=version,
            waivers=[release_pb2.Waiver(code=code, reason="It is invented.")
                     for code in open_gates])).name
        for reason in (" " * 10, " " * 30, "\n\t" * 9, "   short   "):
            details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, stub.WithdrawRelease,
                                   releases.WithdrawReleaseRequest(name=name, reason=reason))
            self.assertEqual(["reason"], self.fields(details))
        self.assertEqual(release_pb2.RELEASE_STATE_WITHDRAWN, stub.WithdrawRelease(
            releases.WithdrawReleaseRequest(name=name, reason="A row is wrong.")).state)


if __name__ == "__main__":
    unittest.main()
