"""A designer's own text from submit to the gates, as designer, technical editor, tester and stranger.

Everybody and everything in it is invented.
"""

import os
import subprocess
import tempfile
import unittest

import live_calls
import live_server
import patterns_test

import grpc
from rowproof.v1 import chart_pb2, chart_service_pb2, chart_service_pb2_grpc
from rowproof.v1 import pattern_pb2, reconciliation_service_pb2
from rowproof.v1 import reconciliation_service_pb2_grpc, release_pb2, report_pb2, text_pb2
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import release_service_pb2 as releases
from rowproof.v1 import release_service_pb2_grpc

ROWS, STITCHES = 8, 12
CELLS = {(3, 4), (3, 8), (5, 6)}  # off-colour cells of the picture: drops in rows 4 and 6


def design():
    made = patterns_test.content(patterns_test.picture(ROWS, STITCHES, CELLS)).design
    made.stitch_band.first, made.stitch_band.last = 3, 10
    made.sizes.add(name="narrow", stitch_repeat_count=1, row_repeat_count=1)
    made.sizes.add(name="wide", stitch_repeat_count=3, row_repeat_count=1)
    return made


def content(text="", terms=chart_pb2.TERMS_UNSPECIFIED):
    made = patterns_test.content(patterns_test.picture(ROWS, STITCHES, CELLS))
    made.design.CopyFrom(design())
    made.designer_text, made.designer_text_terms = text, terms
    return made


class OwnTextTest(live_calls.LiveTest):
    def setUp(self):
        self.name = self.designer.patterns.CreatePattern(
            patterns.CreatePatternRequest(title="Invented runner")).name
        charts = chart_service_pb2_grpc.ChartServiceStub(self.server.channel())
        written = charts.WriteRows(chart_service_pb2.WriteRowsRequest(design=design()))
        self.rows = [row.text for row in written.rows]
        self.charts = charts

    def text(self, **changed):
        """The right text, lines exchanged by row: row4="...". """
        lines = list(self.rows)
        for row, line in changed.items():
            lines[int(row[3:]) - 1] = line
        return "Terms: US.\n\n" + "\n".join(lines) + "\n"

    def one_stitch_wrong(self):
        row, = [r for r in self.rows if r.startswith("Row 4 ")]
        self.assertIn("ssc", row)
        return self.text(row4=row.replace("ssc", "sc", 1))

    def submit(self, text, **more):
        return self.designer.patterns.CreateVersion(patterns.CreateVersionRequest(
            parent=self.name, content=content(text, **more),
            request_id=live_server.request_id()))

    def gate(self, person, version):
        stub = release_service_pb2_grpc.ReleaseServiceStub(person)
        gates = stub.GetGates(releases.GetGatesRequest(version=version)).gates
        return next(g for g in gates if g.code == release_pb2.GATE_CODE_TEXT_EQUALS_CHART)

    def editor(self):
        _, secret = live_server.new_editor(self.server, self.designer.patterns, self.name)
        return secret, live_calls.Caller(self.server, secret)

    def compare(self, caller, version):
        return caller.patterns.CompareVersionRows(
            patterns.CompareVersionRowsRequest(name=version))

    def test_one_fault_is_found_at_its_row_and_its_correction_opens_the_gate(self):
        secret, editor = self.editor()
        first = self.submit(self.one_stitch_wrong())
        self.assertEqual(pattern_pb2.VERSION_STATE_WORKABLE, first.state)
        self.assertFalse(first.comparison.equal)
        for caller in (self.designer, editor):
            read = caller.patterns.GetVersion(patterns.GetVersionRequest(name=first.name))
            self.assertEqual(first, read)
            comparison = self.compare(caller, first.name)
            fault, = [f for f in comparison.findings if f.severity == chart_pb2.SEVERITY_ERROR]
            self.assertEqual(4, fault.row)
            self.assertEqual(4 + 2, fault.place.line)
            self.assertEqual(["narrow", "wide"], list(fault.sizes))
            self.assertIn("4", fault.sentence)
            self.assertEqual(self.rows[3], fault.corrected)
            stored, = read.comparison.findings
            self.assertEqual((fault.code, fault.sentence, fault.row, ""),
                             (stored.code, stored.sentence, stored.row, stored.corrected))
            # One line a row: number, agreement, both texts.
            self.assertEqual(list(range(1, ROWS + 1)), [r.number for r in comparison.rows])
            differing, = [r for r in comparison.rows
                          if r.agreement != text_pb2.ROW_AGREEMENT_AGREES]
            self.assertEqual(4, differing.number)
            self.assertEqual(text_pb2.ROW_AGREEMENT_DIFFERS, differing.agreement)
            self.assertEqual(self.rows[3], differing.chart)
            self.assertEqual(self.rows[3].replace("ssc", "sc", 1), differing.text)
        for channel in (self.server.channel(secret),):
            gate = self.gate(channel, first.name)
            self.assertEqual(release_pb2.GATE_STATE_OPEN, gate.state)
            self.assertIn("1 difference in size narrow", gate.sentence)
        second = self.submit(self.text())
        self.assertTrue(second.comparison.equal)
        self.assertEqual(0, second.comparison.error_count)
        self.assertEqual(release_pb2.GATE_STATE_MET,
                         self.gate(self.server.channel(secret), second.name).state)
        changed = self.designer.patterns.CompareVersions(patterns.CompareVersionsRequest(
            **{"from": first.name, "to": second.name}))
        self.assertEqual(["designer_text"], [f.field for f in changed.fields])
        self.assertEqual("designer's own rows, line 6", changed.fields[0].label)
        listed = self.designer.patterns.ListVersions(
            patterns.ListVersionsRequest(parent=self.name)).versions
        self.assertEqual([0, 1], [v.comparison.error_count for v in listed])
        self.assertFalse(listed[1].comparison.findings)

    def test_a_version_without_a_text_is_not_compared(self):
        version = self.submit("")
        self.assertFalse(version.HasField("comparison"))
        self.assertEqual("1", self.server.psql(
            "select count(*) from version where comparison is null and pattern_id = '%s'"
            % self.name.split("/")[1]))
        details = self.refused(grpc.StatusCode.FAILED_PRECONDITION,
                               self.designer.patterns.CompareVersionRows,
                               patterns.CompareVersionRowsRequest(name=version.name))
        self.assertEqual("NO_DESIGNER_TEXT", self.reason(details))

    def test_a_row_that_cannot_be_read_keeps_the_gate_shut(self):
        secret, _ = self.editor()
        version = self.submit(self.text(row4="Row 4 (WS, B): sc 3, [ssc, sc."))
        self.assertEqual(text_pb2.TEXT_FINDING_CODE_UNREADABLE_ROW,
                         version.comparison.reading[0].code)
        self.assertEqual(6, version.comparison.reading[0].place.line)
        rows = self.compare(self.designer, version.name).rows
        self.assertEqual(text_pb2.ROW_AGREEMENT_NOT_READ, rows[3].agreement)
        self.assertEqual(release_pb2.GATE_STATE_OPEN,
                         self.gate(self.server.channel(secret), version.name).state)

    def test_the_terms_are_the_texts_own_unless_they_are_given(self):
        british = self.charts.WriteRows(chart_service_pb2.WriteRowsRequest(
            design=design(), settings={"terms": chart_pb2.TERMS_UK}))
        text = "\n".join(row.text for row in british.rows)
        said = self.submit("Terms: UK.\n" + text)
        self.assertTrue(said.comparison.equal, said.comparison.findings)
        self.assertEqual(chart_pb2.TERMS_UK, said.comparison.terms)
        self.assertEqual(chart_pb2.TERMS_UNSPECIFIED, said.content.designer_text_terms)
        given = self.submit(text, terms=chart_pb2.TERMS_UK)
        self.assertTrue(given.comparison.equal, given.comparison.findings)
        self.assertEqual(chart_pb2.TERMS_UK, given.content.designer_text_terms)
        self.assertNotEqual(said.content_hash, given.content_hash)
        wrong = self.submit(text, terms=chart_pb2.TERMS_US)
        self.assertFalse(wrong.comparison.equal)

    def test_testers_see_the_text_and_not_what_was_found_in_it(self):
        version = self.submit(self.one_stitch_wrong())
        call = self.designer.calls.CreateTestCall(live_calls.calls.CreateTestCallRequest(
            parent=self.name, version=version.name, settings=live_calls.settings("narrow"))).name
        self.designer.calls.OpenTestCall(live_calls.calls.OpenTestCallRequest(name=call))
        offered = self.designer.calls.CreateSeat(
            live_calls.calls.CreateSeatRequest(parent=call, size="narrow"))
        tester = live_calls.Tester(self.server, self.nobody.calls.TakeSeat(
            live_calls.calls.TakeSeatRequest(invitation=offered.invitation,
                                             display_name="Uwe Untrue")))
        read = tester.patterns.GetVersion(patterns.GetVersionRequest(name=version.name))
        self.assertEqual(version.content.designer_text, read.content.designer_text)
        self.assertFalse(read.HasField("comparison"))
        asked = patterns.CompareVersionRowsRequest(name=version.name)
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.patterns.CompareVersionRows, asked)
        _, token = self.server.new_designer("Odo Invented")
        stranger = live_calls.Caller(self.server, token)
        self.refused(grpc.StatusCode.NOT_FOUND, stranger.patterns.CompareVersionRows, asked)
        self.refused(grpc.StatusCode.UNAUTHENTICATED, self.nobody.patterns.CompareVersionRows,
                     asked)

    def test_a_corrected_row_of_the_text_is_uncovered_again_and_no_other(self):
        first = self.submit(self.one_stitch_wrong())
        call = self.designer.calls.CreateTestCall(live_calls.calls.CreateTestCallRequest(
            parent=self.name, version=first.name, settings=live_calls.settings("narrow"))).name
        self.designer.calls.OpenTestCall(live_calls.calls.OpenTestCallRequest(name=call))
        for source in (report_pb2.WORKED_FROM_TEXT, report_pb2.WORKED_FROM_BOTH):
            offered = self.designer.calls.CreateSeat(
                live_calls.calls.CreateSeatRequest(parent=call, size="narrow"))
            tester = live_calls.Tester(self.server, self.nobody.calls.TakeSeat(
                live_calls.calls.TakeSeatRequest(invitation=offered.invitation,
                                                 display_name="Uwe Untrue")))
            report = live_calls.part_report(6)
            report.worked_from = source
            self.submit_report(tester, report)
        self.assertEqual([(1, 6, 1, 2, 2), (7, 8, 0, 0, 0)], self.coverage(call))
        corrected = self.submit(self.text()).name
        sent = self.designer.calls.SendVersion(
            live_calls.calls.SendVersionRequest(name=call, version=corrected))
        self.assertEqual((2, 0, 0),
                         (sent.behind_count, sent.ahead_count, sent.unchanged_count))
        for seat in sent.seats:
            self.assertEqual([(4, 4, pattern_pb2.ROW_CHANGE_TEXT_CHANGED)],
                             [(r.old_row, r.new_row, r.change) for r in seat.behind])
            self.assertEqual((0, 7), (len(seat.ahead), seat.next_row))
        told = self.client("seat", "changes", sent.seats[0].seat)
        self.assertIn("text-changed", told.stdout, told.stderr)
        self.assertEqual([(1, 3, 1, 2, 2), (4, 4, 1, 0, 1), (5, 6, 1, 2, 2), (7, 8, 0, 0, 0)],
                         self.coverage(call))

    def submit_report(self, tester, content):
        tester.reports.CreateReport(live_calls.reports.CreateReportRequest(
            parent=tester.seat, content=content))

    def coverage(self, call):
        """Runs of rows of size narrow: from chart, from text, testers."""
        stub = reconciliation_service_pb2_grpc.ReconciliationServiceStub(
            self.server.channel(self.token))
        made = stub.CreateReconciliation(reconciliation_service_pb2.CreateReconciliationRequest(parent=call))
        return [(r.first_row, r.last_row, r.chart_count, r.text_count, r.tester_count)
                for r in made.coverage[0].runs]

    def test_wrong_texts_name_their_field_and_change_nothing(self):
        for change, field in (
                (lambda c: setattr(c, "designer_text", "Row 1: sc\x00."), "content.designer_text"),
                (lambda c: setattr(c, "designer_text", "Row 1:\r\nsc."), "content.designer_text"),
                (lambda c: setattr(c, "designer_text", "a" * 1000001), "content.designer_text"),
                (lambda c: setattr(c, "designer_text", "\n" * 10000), "content.designer_text"),
                (lambda c: setattr(c, "designer_text_terms", 7), "content.designer_text_terms"),
                (lambda c: setattr(c, "designer_text_hand", 7), "content.designer_text_hand")):
            wanted = content(self.text())
            change(wanted)
            details = self.refused(grpc.StatusCode.INVALID_ARGUMENT,
                                   self.designer.patterns.CreateVersion,
                                   patterns.CreateVersionRequest(parent=self.name, content=wanted))
            self.assertEqual([field], self.fields(details))
        self.assertEqual(0, self.designer.patterns.GetPattern(
            patterns.GetPatternRequest(name=self.name)).version_count)

    def test_a_draft_that_cannot_be_written_as_rows_keeps_its_text(self):
        wanted = content(self.text())
        wanted.design.chart.CopyFrom(
            patterns_test.picture(ROWS, STITCHES, CELLS | {(ROWS, 5)}))  # nothing covers the top
        version = self.designer.patterns.CreateVersion(patterns.CreateVersionRequest(
            parent=self.name, content=wanted))
        self.assertEqual(pattern_pb2.VERSION_STATE_DRAFT, version.state)
        self.assertEqual(wanted.designer_text, version.content.designer_text)
        self.assertFalse(version.HasField("comparison"))
        details = self.refused(grpc.StatusCode.FAILED_PRECONDITION,
                               self.designer.patterns.CompareVersionRows,
                               patterns.CompareVersionRowsRequest(name=version.name))
        self.assertEqual("UNCOVERED_TOP_ROW", self.reason(details))

    def test_the_sheet_prints_the_designers_own_rows_in_their_terms(self):
        text = self.text(row1="Row 1 (RS, A): Sc in 2nd ch from hook and in each ch across.")
        version = self.submit(text)
        self.assertTrue(version.comparison.equal, version.comparison.findings)
        stub = release_service_pb2_grpc.ReleaseServiceStub(self.server.channel(self.token))
        waivers = [release_pb2.Waiver(code=code, reason="Invented, and worked by nobody.")
                   for code in (release_pb2.GATE_CODE_SIZES_TESTED,
                                release_pb2.GATE_CODE_PREDICTIONS_RECONCILED)]
        request = releases.CreateReleaseRequest(
            parent=version.name.split("/versions/")[0], version=version.name, waivers=waivers)
        request.sheet.terms = chart_pb2.TERMS_UK
        details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, stub.CreateRelease, request)
        self.assertEqual(["sheet.terms"], self.fields(details))
        request.sheet.terms = chart_pb2.TERMS_UNSPECIFIED
        sheet = self.sheet(stub, stub.CreateRelease(request).name)
        self.assertIn("in the designer's own words", sheet)
        self.assertIn("Sc in 2nd ch from hook", sheet)
        written = self.submit("")
        request = releases.CreateReleaseRequest(
            parent=written.name.split("/versions/")[0], version=written.name, waivers=waivers)
        request.sheet.terms, request.sheet.repeat_style = chart_pb2.TERMS_UK, 2
        sheet = self.sheet(stub, stub.CreateRelease(request).name)
        self.assertIn("UK terms; right-handed rows, and left-handed rows after them", sheet)
        self.assertIn("dc in 2nd ch from hook", sheet)
        self.assertIn("rep from *", sheet)

    def sheet(self, stub, release):
        """The pattern sheet as poppler's pdftotext reads it."""
        file = stub.GetReleaseFile(releases.GetReleaseFileRequest(
            name=release, kind=release_pb2.RELEASE_FILE_KIND_PATTERN_SHEET_PDF))
        with tempfile.NamedTemporaryFile(suffix=".pdf") as pdf:
            pdf.write(file.content)
            pdf.flush()
            read = subprocess.run(["pdftotext", pdf.name, "-"], check=True, capture_output=True)
        return " ".join(read.stdout.decode().replace("\u2019", "'").split())

    def test_the_client_tells_disagreement_by_its_exit_code(self):
        with tempfile.TemporaryDirectory() as folder:
            text = os.path.join(folder, "rows.txt")
            with open(text, "w") as file:
                file.write(self.one_stitch_wrong())
            chart = os.path.join(folder, "chart.csv")
            with open(chart, "w") as file:
                for row in range(ROWS, 0, -1):
                    file.write(",".join(
                        "AB"[(row % 2 == 0) != ((row, s) in CELLS)]
                        for s in range(STITCHES, 0, -1)) + "\n")
            told = self.client("compare", chart, text, "--stitch-band", "3-10", "--size",
                               "narrow:1x1", "--size", "wide:3x1")
            self.assertEqual(1, told.returncode, told.stderr)
            self.assertIn("Row 4", told.stdout)
            self.assertLessEqual(max(map(len, told.stdout.splitlines())), 100)
            version = self.submit(self.one_stitch_wrong()).name
            told = self.client("version", "compare", version, "--details")
            self.assertEqual(1, told.returncode, told.stderr)
            self.assertIn("differs", told.stdout)
            told = self.client("version", "text", version)
            self.assertEqual(self.one_stitch_wrong(), told.stdout)

    def client(self, *arguments):
        return subprocess.run(
            [os.path.join(live_server.BUILD, "rowproof"), *arguments], text=True,
            capture_output=True, env=dict(os.environ, ROWPROOF_SERVER=self.server.address,
                                          ROWPROOF_TOKEN=self.token))

    def test_the_log_has_no_texts(self):
        self.submit(self.text(row1="Row 1 (RS, A): Marchpane Invented."))
        self.assertNotIn("Marchpane", self.server.log_text())


if __name__ == "__main__":
    unittest.main()
