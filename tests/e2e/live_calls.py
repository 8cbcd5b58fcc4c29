"""A live server with a designer, and how its tests make calls, seats, testers and reports.

All people and patterns are invented.
"""

import unittest

import live_server
import patterns_test

import grpc
from rowproof.v1 import account_service_pb2, account_service_pb2_grpc
from rowproof.v1 import chart_pb2
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import pattern_service_pb2_grpc
from rowproof.v1 import release_service_pb2_grpc
from rowproof.v1 import report_pb2
from rowproof.v1 import report_service_pb2 as reports
from rowproof.v1 import report_service_pb2_grpc
from rowproof.v1 import test_call_pb2
from rowproof.v1 import test_call_service_pb2 as calls
from rowproof.v1 import test_call_service_pb2_grpc

ROWS, STITCHES = 20, 24
FIRST = {(5, 3), (7, 3)}
SECOND = {(5, 3), (7, 3), (15, 9)}  # row 15 differs in stitch 9: worked rows 16 drop there


class Caller:
    """The stubs of one caller; None: nobody signed in."""

    def __init__(self, server, token=None):
        channel = server.channel(token)
        self.patterns = pattern_service_pb2_grpc.PatternServiceStub(channel)
        self.calls = test_call_service_pb2_grpc.TestCallServiceStub(channel)
        self.reports = report_service_pb2_grpc.ReportServiceStub(channel)
        self.accounts = account_service_pb2_grpc.AccountServiceStub(channel)
        self.releases = release_service_pb2_grpc.ReleaseServiceStub(channel)


class Tester(Caller):
    def __init__(self, server, taken):
        super().__init__(server, taken.secret)
        self.seat = taken.seat.name


def settings(size="one size", **more):
    return test_call_pb2.CallSettings(
        title="Invented call",
        sizes=[test_call_pb2.WantedSize(size=size, seat_count=3, required_count=2)], **more)


def part_report(last_row, *errata):
    return report_pb2.ReportContent(last_row=last_row, errata=errata)


def row_fault(row, was="ssc", **more):
    return report_pb2.ErratumEntry(row=row, kind=report_pb2.ERRATUM_KIND_STITCH,
                                   seen_in=report_pb2.SEEN_IN_CHART, was=was, **more)


class LiveTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()
        _, cls.token = cls.server.new_designer()
        cls.designer = Caller(cls.server, cls.token)
        cls.nobody = Caller(cls.server)

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    def version(self, pattern, cells=frozenset(FIRST)):
        return self.designer.patterns.CreateVersion(patterns.CreateVersionRequest(
            parent=pattern,
            content=patterns_test.content(patterns_test.picture(ROWS, STITCHES, cells)))).name

    def pattern(self):
        name = self.designer.patterns.CreatePattern(
            patterns.CreatePatternRequest(title="Invented tile")).name
        self.version(name)
        return name

    def call(self, pattern=None, opened=True):
        pattern = pattern or self.pattern()
        name = self.designer.calls.CreateTestCall(calls.CreateTestCallRequest(
            parent=pattern, version=pattern + "/versions/1", settings=settings())).name
        if opened:
            self.designer.calls.OpenTestCall(calls.OpenTestCallRequest(name=name))
        return name

    def offer(self, call):
        return self.designer.calls.CreateSeat(
            calls.CreateSeatRequest(parent=call, size="one size"))

    def new_tester(self, call, name="Uwe Untrue"):
        return Tester(self.server, self.nobody.calls.TakeSeat(calls.TakeSeatRequest(
            invitation=self.offer(call).invitation, display_name=name)))

    def submit(self, tester, content, **more):
        return tester.reports.CreateReport(
            reports.CreateReportRequest(parent=tester.seat, content=content, **more))

    def refused(self, code, method, request):
        with self.assertRaises(grpc.RpcError) as caught:
            method(request)
        self.assertEqual(code, caught.exception.code(), caught.exception.details())
        return live_server.details_of(caught.exception)

    def fields(self, details):
        return [v.field for v in details["BadRequest"].field_violations]

    def reason(self, details):
        return details["PreconditionFailure"].violations[0].type
