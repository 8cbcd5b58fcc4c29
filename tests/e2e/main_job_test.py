"""The main job, from chart to published correction, by a plain gRPC client. All data invented."""

import math
import subprocess
import tempfile
import unittest

import live_server
import patterns_test

import grpc
from rowproof.v1 import chart_pb2, materials_pb2, release_pb2, report_pb2
from rowproof.v1 import test_call_pb2, yarn_pb2
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import pattern_service_pb2_grpc
from rowproof.v1 import reconciliation_service_pb2 as reconciliations
from rowproof.v1 import reconciliation_service_pb2_grpc
from rowproof.v1 import release_service_pb2 as releases
from rowproof.v1 import release_service_pb2_grpc
from rowproof.v1 import report_service_pb2 as reports
from rowproof.v1 import report_service_pb2_grpc
from rowproof.v1 import test_call_service_pb2 as calls
from rowproof.v1 import test_call_service_pb2_grpc

ROWS, STITCHES = 20, 24


class Person:
    """All stubs with one bearer token."""

    def __init__(self, server, token=None):
        channel = server.channel(token)
        self.token = token
        self.patterns = pattern_service_pb2_grpc.PatternServiceStub(channel)
        self.calls = test_call_service_pb2_grpc.TestCallServiceStub(channel)
        self.reports = report_service_pb2_grpc.ReportServiceStub(channel)
        self.reconciliations = reconciliation_service_pb2_grpc.ReconciliationServiceStub(channel)
        self.releases = release_service_pb2_grpc.ReleaseServiceStub(channel)


class Setting:
    """A pattern of one workable version, an open call, and testers with seats."""

    first_cells = {(5, 3), (7, 3), (9, 10)}
    worked_rows = ROWS

    def __init__(self, server, seats=3):
        self.server = server
        _, token = server.new_designer()
        self.designer = Person(server, token)
        self.pattern = self.designer.patterns.CreatePattern(
            patterns.CreatePatternRequest(title="Invented tile")).name
        self.version = self.submit(self.first_cells).name
        self.call = self.designer.calls.CreateTestCall(calls.CreateTestCallRequest(
            parent=self.pattern, version=self.version,
            settings=test_call_pb2.CallSettings(
                title="Testers wanted (invented)",
                sizes=[test_call_pb2.WantedSize(size="one size", seat_count=seats,
                                                 required_count=min(2, seats))]))).name
        self.designer.calls.OpenTestCall(calls.OpenTestCallRequest(name=self.call))
        self.testers = [self.seat("Tester %d Invented" % i) for i in range(seats)]

    def content(self, set_cells):
        return patterns_test.content(patterns_test.picture(ROWS, STITCHES, set_cells))

    def submit(self, set_cells):
        content = self.content(set_cells)
        content.design.sizes.add(name="one size")
        return self.designer.patterns.CreateVersion(patterns.CreateVersionRequest(
            parent=self.pattern, content=content, request_id=live_server.request_id()))

    def seat(self, name):
        offered = self.designer.calls.CreateSeat(calls.CreateSeatRequest(
            parent=self.call, size="one size", request_id=live_server.request_id()))
        taken = Person(self.server).calls.TakeSeat(calls.TakeSeatRequest(
            invitation=offered.invitation, display_name=name,
            request_id=live_server.request_id()))
        person = Person(self.server, taken.secret)
        person.seat = offered.name
        person.invitation = offered.invitation
        return person

    def report(self, ratio=1.05, **other):
        estimate = self.designer.patterns.EstimateVersion(patterns.EstimateVersionRequest(
            name=self.version)).sizes[0]
        values = dict(
            version=self.version, worked_from=report_pb2.WORKED_FROM_BOTH,
            hand=chart_pb2.HAND_RIGHT,
            yarn=[report_pb2.YarnUse(role=y.role, length_m=y.length_mm / 1000 * ratio)
                  for y in estimate.yarns],
            gauge_before=[materials_pb2.GaugeReading(stitches=14, rows=16)],
            width_before_mm=estimate.before_blocking.width_mm,
            height_before_mm=estimate.before_blocking.height_mm,
            minutes=estimate.working_time_minutes, last_row=self.worked_rows, finished=True)
        values.update(other)
        return report_pb2.ReportContent(**values)


class MainJobTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    def refused(self, code, call, request):
        with self.assertRaises(grpc.RpcError) as caught:
            call(request)
        self.assertEqual(code, caught.exception.code(), caught.exception.details())
        return live_server.details_of(caught.exception)

    def send(self, person, content, parent=None):
        return person.reports.CreateReport(reports.CreateReportRequest(
            parent=parent or person.seat, content=content, request_id=live_server.request_id()))

    def test_from_chart_to_published_correction(self):
        setting = Setting(self.server)
        designer, (one, two, three) = setting.designer, setting.testers
        # The cell of row 11 is covered by the drop of row 12: that is the row a maker works.
        gap = report_pb2.ErratumEntry(
            row=12, first_stitch=12, last_stitch=12, kind=report_pb2.ERRATUM_KIND_STITCH,
            seen_in=report_pb2.SEEN_IN_CHART, was="sc", should_be="ssc")
        self.send(one, setting.report(1.08, errata=[gap]))
        self.send(two, setting.report(1.12, errata=[gap]))
        self.send(designer, setting.report(1.05), parent=three.seat)

        errata = designer.reports.ListErrata(
            reports.ListErrataRequest(parent=setting.call)).errata
        self.assertEqual(2, len(errata))
        reconciled = designer.reconciliations.CreateReconciliation(
            reconciliations.CreateReconciliationRequest(parent=setting.call))
        self.assertEqual([2], [len(c.errata) for c in reconciled.errata])
        yarn = next(q for q in reconciled.quantities
                    if q.quantity.role == yarn_pb2.YARN_ROLE_A)
        self.assertEqual(3, yarn.used_count)
        # The prior N(0, 0.12) pulls the mean of ln 1.05 .. ln 1.12 a little towards 0.
        self.assertGreater(yarn.mu.mean, 0.04)
        self.assertLess(yarn.mu.mean, (math.log(1.05) + math.log(1.08) + math.log(1.12)) / 3)
        self.assertGreater(yarn.amounts[0].suffices.length_m, 1.05 * yarn.amounts[0].predicted_m)
        self.assertEqual(0, yarn.amounts[0].suffices.rounded_m % 5)

        corrected = setting.submit({(5, 3), (7, 3), (9, 10), (11, 12)})
        difference = designer.patterns.CompareVersions(patterns.CompareVersionsRequest(
            to=corrected.name, **{"from": setting.version}))
        self.assertEqual([(12, 12)], [(s.first, s.last)
                                      for row in difference.rows for s in row.stitches])
        sent = designer.calls.SendVersion(calls.SendVersionRequest(
            name=setting.call, version=corrected.name))
        self.assertEqual(corrected.name, sent.test_call.version)

        publish = releases.CreateReleaseRequest(
            parent=corrected.name.split("/versions/")[0], version=corrected.name,
            test_call=setting.call, validate_only=True)
        shown = designer.releases.CreateRelease(publish)
        self.assertEqual(("", []), (shown.name, list(shown.files)))
        self.assertEqual(list(designer.releases.GetGates(releases.GetGatesRequest(
            version=corrected.name, test_call=setting.call)).gates), list(shown.gates))
        self.assertIn(release_pb2.GATE_STATE_OPEN, [g.state for g in shown.gates])
        publish.validate_only = False
        details = self.refused(grpc.StatusCode.FAILED_PRECONDITION,
                               designer.releases.CreateRelease, publish)
        self.assertIn("errata-decided",
                      [v.subject for v in details["PreconditionFailure"].violations])
        for erratum in errata:
            designer.reports.DecideErratum(reports.DecideErratumRequest(
                name=erratum.name, state=report_pb2.ERRATUM_STATE_ACCEPTED))
        for gate in designer.releases.GetGates(releases.GetGatesRequest(
                version=corrected.name, test_call=setting.call)).gates:
            if gate.state == release_pb2.GATE_STATE_OPEN:
                publish.waivers.add(code=gate.code, reason="one stitch of one row changed")
        publish.validate_only = True
        shown = designer.releases.CreateRelease(publish)
        self.assertNotIn(release_pb2.GATE_STATE_OPEN, [g.state for g in shown.gates])
        self.assertEqual([], list(designer.releases.ListReleases(
            releases.ListReleasesRequest(parent=publish.parent)).releases))
        publish.validate_only = False
        release = designer.releases.CreateRelease(publish)
        self.assertEqual(list(shown.gates), list(release.gates))
        self.check_files(designer, release)
        self.withdraw(setting, release)

    def withdraw(self, setting, release):
        """It stays readable to everybody who could read it, and says that it is withdrawn."""
        request = releases.WithdrawReleaseRequest(
            name=release.name, reason="row 11 is wrong after all",
            request_id=live_server.request_id())
        tester, stub = setting.testers[0], setting.designer.releases
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.releases.WithdrawRelease, request)
        self.refused(grpc.StatusCode.INVALID_ARGUMENT, stub.WithdrawRelease,
                     releases.WithdrawReleaseRequest(name=release.name, reason="no"))
        withdrawn = stub.WithdrawRelease(request)
        self.assertEqual(release_pb2.RELEASE_STATE_WITHDRAWN, withdrawn.state)
        self.assertTrue(withdrawn.HasField("withdraw_time"))
        self.assertEqual(withdrawn, stub.WithdrawRelease(request))
        for person in (setting.designer, tester):
            self.assertEqual(withdrawn, person.releases.GetRelease(
                releases.GetReleaseRequest(name=release.name)))
            file = person.releases.GetReleaseFile(releases.GetReleaseFileRequest(
                name=release.name, kind=release_pb2.RELEASE_FILE_KIND_ERRATA_SHEET_TEXT))
            self.assertEqual(release_pb2.RELEASE_STATE_WITHDRAWN, file.state)
            self.assertIn(b"row", file.content)
        details = self.refused(grpc.StatusCode.FAILED_PRECONDITION, stub.WithdrawRelease,
                               releases.WithdrawReleaseRequest(name=release.name,
                                                               reason="row 11 is wrong"))
        self.assertEqual("RELEASE_STATE", details["PreconditionFailure"].violations[0].type)

    def check_files(self, designer, release):
        files = {}
        for kind in (release_pb2.RELEASE_FILE_KIND_PATTERN_SHEET_PDF,
                     release_pb2.RELEASE_FILE_KIND_ERRATA_SHEET_PDF,
                     release_pb2.RELEASE_FILE_KIND_ERRATA_SHEET_TEXT):
            files[kind] = designer.releases.GetReleaseFile(releases.GetReleaseFileRequest(
                name=release.name, kind=kind)).content
        for kind in list(files)[:2]:
            with tempfile.NamedTemporaryFile(suffix=".pdf") as pdf:
                pdf.write(files[kind])
                pdf.flush()
                subprocess.run(["qpdf", "--check", pdf.name], check=True, capture_output=True)
                text = subprocess.run(["pdftotext", "-layout", pdf.name, "-"], check=True,
                                      capture_output=True, text=True).stdout
                self.assertIn("Invented tile", text)
        sheet = files[release_pb2.RELEASE_FILE_KIND_ERRATA_SHEET_TEXT]
        self.assertIn(b"row 12, stitch 12", sheet)
        self.assertNotIn(b"still reads this way", sheet)

    def test_a_form_comes_back_by_mail(self):
        setting = Setting(self.server, seats=1)
        tester = setting.testers[0]
        self.send(tester, setting.report(1.07, last_row=9, finished=False))
        form = tester.calls.GetSeatForm(calls.GetSeatFormRequest(name=tester.seat)).form_text
        self.assertNotIn(tester.token, form)
        mailed = "\r\n".join("> " + line for line in form.splitlines())
        stored = tester.reports.CreateReportFromForm(reports.CreateReportFromFormRequest(
            parent=tester.seat, form_text=mailed)).report
        first = tester.reports.GetReport(reports.GetReportRequest(
            name=tester.seat + "/reports/1"))
        self.assertEqual(first.content, stored.content)
        self.assertEqual(tester.seat + "/reports/2", stored.name)
        broken = mailed.replace("last row: 9", "last row: soon")
        self.assertNotEqual(mailed, broken)
        details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReportFromForm,
                               reports.CreateReportFromFormRequest(parent=tester.seat, form_text=broken))
        line = broken.split("\r\n").index("> last row: soon") + 1
        self.assertIn("Line %d" % line, str(details["BadRequest"]))

    def test_wrong_reports_name_the_field_and_change_nothing(self):
        setting = Setting(self.server, seats=1)
        tester = setting.testers[0]
        for wrong, field in (
                (setting.report(minutes=float("nan")), "content.minutes"),
                (setting.report(width_before_mm=-4), "content.width_before_mm"),
                (setting.report(last_row=ROWS + 1), "content.last_row"),
                (setting.report(remarks="a\x00b"), "content.remarks"),
                (setting.report(errata=[report_pb2.ErratumEntry(
                    row=999, kind=report_pb2.ERRATUM_KIND_COUNT, was="x")]),
                 "content.errata[0].row")):
            details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReport,
                                   reports.CreateReportRequest(parent=tester.seat, content=wrong))
            self.assertEqual([field], [v.field for v in details["BadRequest"].field_violations])
        self.assertEqual(0, len(tester.reports.ListReports(
            reports.ListReportsRequest(parent=tester.seat)).reports))

    def test_inches_are_asked_back_and_not_changed(self):
        setting = Setting(self.server, seats=1)
        content = setting.report()
        content.width_before_mm /= 2.54
        stored = self.send(setting.testers[0], content)
        self.assertIn(report_pb2.SLIP_CODE_INCHES_AS_CENTIMETRES, [s.code for s in stored.slips])
        self.assertEqual(content.width_before_mm, stored.content.width_before_mm)

    def test_testers_do_not_see_each_other(self):
        setting = Setting(self.server, seats=2)
        one, two = setting.testers
        report = self.send(one, setting.report())
        self.refused(grpc.StatusCode.NOT_FOUND, two.reports.GetReport,
                     reports.GetReportRequest(name=report.name))
        self.refused(grpc.StatusCode.NOT_FOUND, two.reports.CreateReport,
                     reports.CreateReportRequest(parent=one.seat, content=setting.report()))
        other = Setting(self.server, seats=1)
        self.refused(grpc.StatusCode.NOT_FOUND, other.designer.calls.GetTestCall,
                     calls.GetTestCallRequest(name=setting.call))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, one.releases.CreateRelease,
                     releases.CreateReleaseRequest(
                         parent=setting.version.split("/versions/")[0], version=setting.version,
                         test_call=setting.call))

    def test_an_invitation_is_taken_once(self):
        setting = Setting(self.server, seats=1)
        self.refused(grpc.StatusCode.NOT_FOUND, Person(self.server).calls.TakeSeat,
                     calls.TakeSeatRequest(invitation=setting.testers[0].invitation,
                                           display_name="Second Invented"))

    def test_a_draft_is_not_sent_to_testers(self):
        setting = Setting(self.server, seats=1)
        draft = setting.submit({(5, 3), (6, 3)})
        self.refused(grpc.StatusCode.FAILED_PRECONDITION, setting.designer.calls.SendVersion,
                     calls.SendVersionRequest(name=setting.call, version=draft.name))
        self.refused(grpc.StatusCode.FAILED_PRECONDITION, setting.designer.calls.CreateTestCall,
                     calls.CreateTestCallRequest(
                         parent=setting.pattern, version=draft.name,
                         settings=test_call_pb2.CallSettings(title="Invented", sizes=[
                             test_call_pb2.WantedSize(size="one size", seat_count=1, required_count=1)])))

    def test_a_repeated_report_is_stored_once(self):
        setting = Setting(self.server, seats=1)
        tester = setting.testers[0]
        request = reports.CreateReportRequest(parent=tester.seat, content=setting.report(),
                                              request_id=live_server.request_id())
        self.assertEqual(tester.reports.CreateReport(request),
                         tester.reports.CreateReport(request))
        self.assertEqual(1, len(tester.reports.ListReports(
            reports.ListReportsRequest(parent=tester.seat)).reports))


if __name__ == "__main__":
    unittest.main()
