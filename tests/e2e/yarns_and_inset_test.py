"""Test calls of a pattern in three colours with a border, and of one in inset. All data invented."""

import subprocess
import tempfile
import unittest

import live_server
import main_job_test
import patterns_test

import grpc
from rowproof.v1 import (chart_pb2, reconciliation_pb2, release_pb2, report_pb2,
                         yarn_pb2)
from rowproof.v1 import reconciliation_service_pb2 as reconciliations
from rowproof.v1 import release_service_pb2 as releases
from rowproof.v1 import report_service_pb2 as reports
from rowproof.v1 import test_call_service_pb2 as calls

ROLES = [yarn_pb2.YARN_ROLE_A, yarn_pb2.YARN_ROLE_B, yarn_pb2.YARN_ROLE_C,
         yarn_pb2.YARN_ROLE_BORDER]

ROWS, STITCHES = 20, 24


def working(rows, stitches, drops):
    width = (stitches + 7) // 8
    cells = bytearray(width * rows)
    for row, stitch in drops:
        cells[(row - 1) * width + (stitch - 1) // 8] |= 1 << ((stitch - 1) % 8)
    return chart_pb2.Chart(row_count=rows, stitch_count=stitches, cells=bytes(cells),
                           convention=chart_pb2.CONVENTION_WORKING)


class ThreeColours(main_job_test.Setting):
    """Rows in A B A C, and a border of its own yarn."""

    first_cells = {(5, 3), (7, 5), (9, 10)}

    def content(self, set_cells):
        content = patterns_test.content(working(ROWS, STITCHES, set_cells))
        content.design.facing = chart_pb2.FACING_ONE_FACE
        letters = (chart_pb2.COLOUR_A, chart_pb2.COLOUR_B, chart_pb2.COLOUR_A, chart_pb2.COLOUR_C)
        content.design.chart.row_colours.extend(letters[i % 4] for i in range(ROWS))
        materials = content.materials
        materials.yarns[0].yarn.name = "Oat"
        materials.yarns[1].yarn.name = "Slate"
        materials.yarns.extend([
            live_server.role("C", yarn_pb2.Yarn(name="Rust", weight_class=4, tex=520)),
            live_server.role("border", yarn_pb2.Yarn(
                name="Moss", weight_class=4, ball_band=yarn_pb2.BallBand(length_m=85, mass_g=50)))])
        materials.border.round_count = 2
        materials.border.role = yarn_pb2.YARN_ROLE_BORDER
        return content


class Inset(main_job_test.Setting):
    """Ten rows of the chart, each worked twice; a later version has two more below."""

    chart_rows = 10
    worked_rows = 20
    first_cells = {(4, 5), (6, 8)}

    def content(self, set_cells):
        content = patterns_test.content(patterns_test.picture(
            self.chart_rows, STITCHES, set_cells))
        content.design.technique = chart_pb2.TECHNIQUE_INSET
        content.design.ClearField("facing")
        content.design.ends = chart_pb2.ENDS_WAITING
        return content


def filled(form, answers):
    """The form with answers behind its labels, as a mail that quotes it."""
    left = dict(answers)
    lines = []
    for line in form.splitlines():
        label = line.split(":", 1)[0]
        if ":" in line and label in left:
            line = "%s: %s" % (label, left.pop(label))
        lines.append("> " + line)
    assert not left, left
    return "\r\n".join(lines)


def text_of(pdf):
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(pdf)
        file.flush()
        subprocess.run(["qpdf", "--check", file.name], check=True, capture_output=True)
        text = subprocess.run(["pdftotext", "-layout", file.name, "-"], check=True,
                              capture_output=True, text=True).stdout
        return " ".join(text.split())


class CallsTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    refused = main_job_test.MainJobTest.refused
    send = main_job_test.MainJobTest.send

    def form(self, tester):
        return tester.calls.GetSeatForm(calls.GetSeatFormRequest(name=tester.seat)).form_text

    def errata(self, setting):
        return setting.designer.reports.ListErrata(
            reports.ListErrataRequest(parent=setting.call)).errata

    def reconcile(self, setting):
        return setting.designer.reconciliations.CreateReconciliation(
            reconciliations.CreateReconciliationRequest(parent=setting.call))

    def gate(self, setting, version, code=release_pb2.GATE_CODE_PREDICTIONS_RECONCILED):
        return next(g for g in setting.designer.releases.GetGates(releases.GetGatesRequest(
            version=version, test_call=setting.call)).gates if g.code == code)

    def publish(self, setting, version):
        """Accepts every erratum, passes over what is open, and returns the release's files."""
        for erratum in self.errata(setting):
            setting.designer.reports.DecideErratum(reports.DecideErratumRequest(
                name=erratum.name, state=report_pb2.ERRATUM_STATE_ACCEPTED))
        request = releases.CreateReleaseRequest(
            parent=version.split("/versions/")[0], version=version, test_call=setting.call)
        for gate in setting.designer.releases.GetGates(releases.GetGatesRequest(
                version=version, test_call=setting.call)).gates:
            if gate.state == release_pb2.GATE_STATE_OPEN:
                request.waivers.add(code=gate.code, reason="one stitch of one row changed")
        release = setting.designer.releases.CreateRelease(request)
        return [setting.designer.releases.GetReleaseFile(releases.GetReleaseFileRequest(
            name=release.name, kind=kind)).content for kind in (
                release_pb2.RELEASE_FILE_KIND_PATTERN_SHEET_PDF,
                release_pb2.RELEASE_FILE_KIND_ERRATA_SHEET_PDF,
                release_pb2.RELEASE_FILE_KIND_ERRATA_SHEET_TEXT)]


class ThreeColoursTest(CallsTest):
    def used(self, setting):
        """Metres that the estimate expects, by colour."""
        estimate = setting.designer.patterns.EstimateVersion(
            main_job_test.patterns.EstimateVersionRequest(name=setting.version)).sizes[0]
        return {live_server.word(y.role): y.length_mm / 1000 for y in estimate.yarns}

    def by_mail(self, setting, tester):
        form = self.form(tester)
        for label in ("yarn C length used", "yarn C ball", "border yarn length used"):
            self.assertIn("\n%s:" % label, form)
        for label in ("yarn D length used", "yarn A with border", "border yarn with border"):
            self.assertNotIn("\n%s:" % label, form)
        used = self.used(setting)
        answers = {
            "worked from": "both", "hand": "right", "terms": "US", "last row": "20",
            "finished": "yes", "yarn C name": "Brick (invented)", "yarn C weight class": "4",
            "yarn C ball": "540 tex", "width before blocking": "17.4 cm",
            "height before blocking": "13.1 cm"}
        for colour, prefix in (("A", "yarn A "), ("B", "yarn B "), ("border", "border yarn ")):
            answers[prefix + "length used"] = "%.1f m" % (1.06 * used[colour])
            answers[prefix + "with swatch"] = "no"
        answers["yarn C weight before"] = "100 g"
        answers["yarn C weight after"] = "%.1f g" % (100 - 1.06 * used["C"] * 0.54)
        answers["yarn C scale reads to"] = "0.1 g"
        answers["yarn C with swatch"] = "no"
        stored = tester.reports.CreateReportFromForm(reports.CreateReportFromFormRequest(
            parent=tester.seat, form_text=filled(form, answers))).report
        self.assertEqual(ROLES, [y.role for y in stored.content.yarn])
        read = tester.reports.GetReport(reports.GetReportRequest(name=stored.name))
        self.assertEqual(540, read.content.yarn[2].yarn.tex)
        self.assertEqual(stored, read)
        # The form that comes next carries it.
        self.assertIn("\nyarn C ball: 540 tex\n", self.form(tester))

    def without(self, content, role):
        kept = [y for y in content.yarn if y.role != role]
        del content.yarn[:]
        content.yarn.extend(kept)
        return content

    def test_every_colour_is_reported_reconciled_and_printed(self):
        setting = ThreeColours(self.server)
        designer, (one, two, three) = setting.designer, setting.testers
        self.assertEqual(["A", "B", "C", "border"], list(self.used(setting)))
        gap = report_pb2.ErratumEntry(
            row=11, first_stitch=12, last_stitch=12, kind=report_pb2.ERRATUM_KIND_STITCH,
            seen_in=report_pb2.SEEN_IN_CHART, was="sc", should_be="ssc")
        for tester in setting.testers:
            self.send(tester, self.without(setting.report(1.1, errata=[gap]), yarn_pb2.YARN_ROLE_C))
        self.reconcile(setting)
        gate = self.gate(setting, setting.version)
        self.assertEqual(release_pb2.GATE_STATE_OPEN, gate.state)
        self.assertEqual("Not reconciled with the testers' measurements: yarn C.", gate.sentence)

        details = self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, two.reports.CreateReport,
            reports.CreateReportRequest(parent=two.seat, content=setting.report(
                yarn=[report_pb2.YarnUse(role="YARN_ROLE_D", length_m=5)])))
        self.assertEqual(["content.yarn[0].role"],
                         [v.field for v in details["BadRequest"].field_violations])
        self.by_mail(setting, one)
        with_tex = setting.report(1.12, errata=[gap])
        with_tex.yarn[2].yarn.CopyFrom(yarn_pb2.Yarn(
            name="Clay", fibre="100 % wool", weight_class=4, tex=480.5))
        self.assertEqual(with_tex.yarn[2].yarn, self.send(two, with_tex).content.yarn[2].yarn)
        self.send(designer, setting.report(1.3, errata=[gap]), parent=three.seat)
        gate = self.gate(setting, setting.version)
        self.assertIn("yarn A, yarn B, yarn C, yarn border, width", gate.sentence)
        reconciled = self.reconcile(setting)
        self.check_yarns(reconciled)
        self.assertEqual(release_pb2.GATE_STATE_MET, self.gate(setting, setting.version).state)

        self.set_aside(setting, three)
        self.assertEqual(release_pb2.GATE_STATE_OPEN, self.gate(setting, setting.version).state)
        again = self.yarn(self.reconcile(setting), yarn_pb2.YARN_ROLE_C)
        self.assertEqual((2, 1), (again.used_count, again.set_aside_count))
        self.assertEqual(release_pb2.GATE_STATE_MET, self.gate(setting, setting.version).state)

        corrected = setting.submit(setting.first_cells | {(11, 12)}).name
        designer.calls.SendVersion(calls.SendVersionRequest(
            name=setting.call, version=corrected))
        sheet, errata_sheet, errata_text = self.publish(setting, corrected)
        text = text_of(sheet)
        for words in ("A, Oat", "B, Slate", "C, Rust", "border, Moss", "520 tex",
                      "Border in its own yarn: 2 rounds"):
            self.assertIn(words, text)
        self.assertNotIn("estimated from the gauge", text)  # testers measured width and height
        text_of(errata_sheet)
        self.assertIn(b"row 11, stitch 12", errata_text)

    def yarn(self, reconciled, role):
        return next(q for q in reconciled.quantities if q.quantity.role == role)

    def set_aside(self, setting, tester):
        stub = setting.designer.reconciliations
        request = reconciliations.CreateSetAsideRequest(
            parent=setting.call, seat=tester.seat, note="not C's ball",
            quantity=reconciliation_pb2.Quantity(kind="QUANTITY_KIND_YARN", role="YARN_ROLE_C"),
            request_id=live_server.request_id())
        made = stub.CreateSetAside(request)
        self.assertEqual(made, stub.CreateSetAside(request))
        self.assertTrue(made.name.startswith(setting.call + "/setAsides/"))
        self.assertEqual((tester.seat, "not C's ball"), (made.seat, made.note))
        self.assertEqual(made, stub.GetSetAside(reconciliations.GetSetAsideRequest(name=made.name)))
        request.request_id = ""
        details = self.refused(grpc.StatusCode.ALREADY_EXISTS, stub.CreateSetAside, request)
        self.assertEqual(made.name, details["ResourceInfo"].resource_name)
        for wrong, field in (
                (dict(kind="QUANTITY_KIND_YARN"), "quantity.role"), ({}, "quantity.kind"),
                (dict(kind="QUANTITY_KIND_WIDTH", role="YARN_ROLE_A"), "quantity.role")):
            request.quantity.CopyFrom(reconciliation_pb2.Quantity(**wrong))
            details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, stub.CreateSetAside, request)
            self.assertEqual([field], [v.field for v in details["BadRequest"].field_violations])
        request.quantity.CopyFrom(reconciliation_pb2.Quantity(kind="QUANTITY_KIND_TIME"))
        other = stub.CreateSetAside(request)
        listed, token = [], ""
        while True:
            page = stub.ListSetAsides(reconciliations.ListSetAsidesRequest(
                parent=setting.call, page_size=1, page_token=token))
            listed += page.set_asides
            token = page.next_page_token
            if not token:
                break
        self.assertEqual({made.name, other.name}, {s.name for s in listed})
        self.assertEqual(2, len(listed))
        for person in (tester, main_job_test.Person(self.server)):
            code = (grpc.StatusCode.PERMISSION_DENIED if person is tester
                    else grpc.StatusCode.UNAUTHENTICATED)
            self.refused(code, person.reconciliations.GetSetAside,
                         reconciliations.GetSetAsideRequest(name=made.name))
            self.refused(code, person.reconciliations.DeleteSetAside,
                         reconciliations.DeleteSetAsideRequest(name=made.name))
        gone = reconciliations.DeleteSetAsideRequest(name=other.name,
                                                     request_id=live_server.request_id())
        stub.DeleteSetAside(gone)
        stub.DeleteSetAside(gone)
        gone.request_id = ""
        self.refused(grpc.StatusCode.NOT_FOUND, stub.DeleteSetAside, gone)

    def check_yarns(self, reconciled):
        self.assertEqual(
            [(reconciliation_pb2.QUANTITY_KIND_YARN, role) for role in ROLES]
            + [(kind, 0) for kind in (reconciliation_pb2.QUANTITY_KIND_WIDTH,
                                      reconciliation_pb2.QUANTITY_KIND_HEIGHT,
                                      reconciliation_pb2.QUANTITY_KIND_TIME)],
            [(q.quantity.kind, q.quantity.role) for q in reconciled.quantities])
        for quantity, role in zip(reconciled.quantities, ROLES):
            self.assertEqual(3, quantity.used_count, role)
            self.assertEqual([role], [a.role for a in quantity.amounts])
            self.assertGreater(quantity.amounts[0].suffices.length_m,
                               quantity.amounts[0].predicted_m)
        amount = reconciled.quantities[2].amounts[0]  # 520 tex, without a band
        self.assertAlmostEqual(amount.suffices.rounded_m * 0.52, amount.mass_g, delta=1)
        self.assertFalse(amount.HasField("ball_count"))

    def test_two_colours_are_asked_for_as_two(self):
        setting = main_job_test.Setting(self.server, seats=1)
        form = self.form(setting.testers[0])
        self.assertIn("\nyarn B length used:", form)
        for words in ("yarn C", "border yarn", "with border"):
            self.assertNotIn("\n" + words, form)


class InsetTest(CallsTest):
    def test_worked_rows_are_placed_in_their_row_of_the_chart(self):
        setting = Inset(self.server)
        designer, (one, two, three) = setting.designer, setting.testers
        self.assertIn("20 rows of 24 stitches", self.form(one))

        def fault(row):
            return report_pb2.ErratumEntry(
                row=row, first_stitch=11, last_stitch=12, kind=report_pb2.ERRATUM_KIND_STITCH,
                seen_in=report_pb2.SEEN_IN_CHART, was="sc", should_be="mdc",
                counted_from=report_pb2.COUNTED_FROM_ROW_START)

        self.send(one, setting.report(1.08, errata=[fault(9)]))
        form = filled(self.form(two), {
            "worked from": "chart", "hand": "right", "terms": "US", "last row": "20",
            "finished": "yes", "row": "10", "stitches": "13 to 14", "counted from": "row start",
            "seen in": "chart", "kind": "stitch", "was": "sc"})
        two.reports.CreateReportFromForm(reports.CreateReportFromFormRequest(parent=two.seat, form_text=form))
        self.send(three, report_pb2.ReportContent(
            last_row=9, worked_from=report_pb2.WORKED_FROM_CHART))
        errata = self.errata(setting)
        # Row 10 is a WS row, worked from the other edge: stitches 13 to 14 are the chart's 11 to 12.
        self.assertEqual({(9, 5, 11, 12), (10, 5, 11, 12)},
                         {(e.entry.row, e.chart_row, e.first_stitch, e.last_stitch)
                          for e in errata})
        first = self.reconcile(setting)
        self.assertEqual([(5, 5, 2)], [(c.chart_row, c.last_chart_row, len(c.errata))
                                       for c in first.errata])
        self.assertEqual(1, first.errata[0].worked_without_reporting_count)
        self.assertEqual([(1, 9, 3), (10, 20, 2)],
                         [(r.first_row, r.last_row, r.tester_count)
                          for r in first.coverage[0].runs])
        by_row = {e.entry.row: e.name for e in errata}
        self.refused(grpc.StatusCode.FAILED_PRECONDITION, three.reports.ConfirmErratum,
                     reports.ConfirmErratumRequest(
                         name=by_row[10], confirmation=report_pb2.CONFIRMATION_MET_IT_TOO))
        three.reports.ConfirmErratum(reports.ConfirmErratumRequest(
            name=by_row[9], confirmation=report_pb2.CONFIRMATION_MET_IT_TOO))

        # Two more rows of the chart below: everything is four worked rows further up.
        setting.chart_rows = 12
        longer = setting.submit({(6, 5), (8, 8)}).name
        designer.calls.SendVersion(calls.SendVersionRequest(name=setting.call, version=longer))
        changes = three.calls.GetSeatChanges(calls.GetSeatChangesRequest(name=three.seat))
        self.assertEqual(14, changes.next_row)
        second = self.reconcile(setting)
        self.assertEqual([(7, 7)], [(c.chart_row, c.last_chart_row) for c in second.errata])
        worked = {row: r.tester_count for r in second.coverage[0].runs
                  for row in range(r.first_row, r.last_row + 1)}
        self.assertEqual((24, 3, 2, 2), (len(worked), worked[13], worked[14], worked[24]))
        self.assertEqual(4, sum(count == 0 for count in worked.values()))
        self.check_sheets(setting, longer)

    def check_sheets(self, setting, version):
        sheet, errata_sheet, errata_text = self.publish(setting, version)
        text = text_of(sheet)
        self.assertIn("24 sts x 24 rows", text)
        self.assertIn("Inset mosaic, each row of the chart is two rows", text)
        self.assertNotIn("Width: estimated from the gauge", text)
        text_of(errata_sheet)
        sheet_words = errata_text.decode()
        self.assertIn("row 9, stitches 11 to 12", sheet_words)
        self.assertIn("row 10, stitches 11 to 12", sheet_words)
        self.assertRegex(sheet_words, r"Rows \d+ and \d+ added")
        self.assertNotIn("Row 1 added", sheet_words)

if __name__ == "__main__":
    unittest.main()
