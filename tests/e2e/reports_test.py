"""Reports and errata against a live server."""

import concurrent.futures
import json
import unittest

import live_server
from live_calls import LiveTest, part_report, row_fault

import grpc
from rowproof.v1 import account_service_pb2 as accounts
from rowproof.v1 import chart_pb2, materials_pb2, yarn_pb2
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import report_pb2, yarn_pb2
from rowproof.v1 import report_service_pb2 as reports
from rowproof.v1 import test_call_pb2
from rowproof.v1 import test_call_service_pb2 as calls
from rowproof.v1 import yarn_pb2


def whole_report(seat):
    """Every field of a report said."""
    return report_pb2.ReportContent(
        version=seat.split("/testCalls/")[0] + "/versions/1",
        worked_from=report_pb2.WORKED_FROM_CHART, hand=chart_pb2.HAND_LEFT,
        terms=chart_pb2.TERMS_UK,
        yarn=[report_pb2.YarnUse(role=yarn_pb2.YARN_ROLE_A, length_m=12.345678901234567, length_step_m=0.5,
                                 scale_step_g=1, with_swatch=True),
              report_pb2.YarnUse(role=yarn_pb2.YARN_ROLE_B,
                                 yarn=yarn_pb2.Yarn(name='In"vented\\ {yarn}, NULL',
                                                        fibre="80 % cotton", weight_class=4,
                                                        ball_band=yarn_pb2.BallBand(
                                                            length_m=85, mass_g=50)),
                                 mass_before_g=50, mass_after_g=43.5, scale_step_g=0.1,
                                 length_step_m=1, with_border=True)],
        hook_mm=5.5, ends=chart_pb2.ENDS_CUT,
        gauge_before=[materials_pb2.GaugeReading(stitches=14, rows=16, stitch_span_mm=100,
                                              row_span_mm=100, scale_step_mm=1),
                      materials_pb2.GaugeReading(stitches=14.5, rows=16.5, stitch_span_mm=101.6,
                                              row_span_mm=99, scale_step_mm=0.5)],
        gauge_after=[materials_pb2.GaugeReading(stitches=13.5, rows=16, stitch_span_mm=100,
                                             row_span_mm=100, scale_step_mm=1)],
        how_blocked="pinned, sprayed", width_before_mm=171, height_before_mm=125,
        width_after_mm=175, height_after_mm=126, tape_step_mm=5, minutes=95, last_row=20,
        finished=True, remarks="Zeile eins – 'quoted'\nline two\n",
        errata=[report_pb2.ErratumEntry(row=7, first_stitch=3, last_stitch=4,
                                        counted_from=report_pb2.COUNTED_FROM_ROW_START,
                                        seen_in=report_pb2.SEEN_IN_BOTH,
                                        kind=report_pb2.ERRATUM_KIND_STITCH, was="ssc, 'sc'",
                                        should_be='sc "twice", {', remark="\\"),
                report_pb2.ErratumEntry(counted_from=report_pb2.COUNTED_FROM_STITCH_ONE,
                                        seen_in=report_pb2.SEEN_IN_ELSEWHERE,
                                        kind=report_pb2.ERRATUM_KIND_MATERIALS,
                                        was="5 mm", should_be="5.5 mm")])


class ReportsTest(LiveTest):
    def test_a_report_is_read_back_as_it_was_sent(self):
        tester = self.new_tester(self.call())
        content = whole_report(tester.seat)
        request = reports.CreateReportRequest(parent=tester.seat, content=content,
                                              request_id=live_server.request_id())
        made = tester.reports.CreateReport(request)
        self.assertEqual(tester.seat + "/reports/1", made.name)
        self.assertEqual(content, made.content)
        self.assertFalse(made.on_behalf)
        self.assertEqual(made, tester.reports.GetReport(reports.GetReportRequest(name=made.name)))
        self.assertEqual(made, tester.reports.CreateReport(request))
        listed = tester.reports.ListReports(reports.ListReportsRequest(parent=tester.seat)).reports
        self.assertEqual([content], [r.content for r in listed])
        seat = tester.calls.GetSeat(calls.GetSeatRequest(name=tester.seat))
        self.assertEqual((test_call_pb2.SEAT_STATE_FINISHED, 1, 20),
                         (seat.state, seat.report_count, seat.last_row))

    def test_a_tester_gets_all_that_is_held_on_them_and_can_have_it_erased(self):
        tester = self.new_tester(self.call())
        other = self.new_tester(self.call())
        made = self.submit(tester, part_report(5))
        document = json.loads(tester.accounts.ExportPersonalData(
            accounts.ExportPersonalDataRequest()).document)
        self.assertEqual([{"seat": tester.seat, "reports": [made.name]}], document["seats"])
        self.assertEqual([], document["patterns"])
        self.assertNotIn(other.seat, json.dumps(document))
        own = json.loads(self.designer.accounts.ExportPersonalData(
            accounts.ExportPersonalDataRequest()).document)
        self.assertIn(tester.seat.split("/testCalls/")[0], own["patterns"])
        token = tester.accounts.ListTokens(accounts.ListTokensRequest()).tokens[0]
        get = accounts.GetTokenRequest(name=token.name)
        self.assertEqual(token, tester.accounts.GetToken(get))
        self.assertEqual("", token.secret)
        self.refused(grpc.StatusCode.NOT_FOUND, other.accounts.GetToken, get)
        tester.accounts.ErasePersonalData(
            accounts.ErasePersonalDataRequest(name=document["account"]))
        with self.assertRaises(grpc.RpcError) as met:
            tester.accounts.ExportPersonalData(accounts.ExportPersonalDataRequest())
        self.assertEqual(grpc.StatusCode.UNAUTHENTICATED, met.exception.code())
        seat = self.designer.calls.GetSeat(calls.GetSeatRequest(name=tester.seat))
        self.assertEqual(("", 1), (seat.display_name, seat.report_count))

    def test_an_erratum_that_is_left_out_and_said_again_keeps_its_name(self):
        tester = self.new_tester(self.call())
        named = lambda *rows: [e.name for e in self.listed(tester, *rows)]
        first = named(3, 4)
        self.assertEqual(first[:1], named(3))
        self.assertEqual(first, named(3, 4))
        whole = tester.reports.GetReport(reports.GetReportRequest(name=tester.seat + "/reports/1"))
        self.assertEqual([3, 4], [e.row for e in whole.content.errata])
        again = tester.reports.GetReport(reports.GetReportRequest(name=tester.seat + "/reports/2"))
        self.assertEqual([3], [e.row for e in again.content.errata])

    def listed(self, tester, *rows):
        self.submit(tester, part_report(5, *[row_fault(row) for row in rows]))
        return tester.reports.ListErrata(reports.ListErrataRequest(
            parent=tester.seat.split("/seats/")[0])).errata

    def test_a_report_that_is_checked_only_is_not_stored(self):
        tester = self.new_tester(self.call())
        checked = self.submit(tester, part_report(5, row_fault(3)), validate_only=True)
        self.assertEqual("", checked.name)
        self.assertEqual(0, tester.calls.GetSeat(
            calls.GetSeatRequest(name=tester.seat)).report_count)

    def test_impossible_values_are_all_named_and_change_nothing(self):
        tester = self.new_tester(self.call())
        content = part_report(21, row_fault(99), row_fault(3, was="x" * 501))
        content.yarn.add(role=yarn_pb2.YARN_ROLE_A, length_m=float("nan"))
        content.yarn.add(role=yarn_pb2.YARN_ROLE_B, mass_before_g=50)
        content.minutes = -1
        details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReport,
                               reports.CreateReportRequest(parent=tester.seat, content=content))
        self.assertEqual(
            {"content.last_row", "content.errata[0].row", "content.errata[1].was",
             "content.yarn[0].length_m", "content.yarn[1].mass_after_g", "content.minutes"},
            set(self.fields(details)))
        details = self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReport,
            reports.CreateReportRequest(parent=tester.seat, content=report_pb2.ReportContent(
                version=tester.seat.split("/testCalls/")[0] + "/versions/2")))
        self.assertEqual(["content.version"], self.fields(details))
        details = self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReport,
            reports.CreateReportRequest(parent=tester.seat, content=report_pb2.ReportContent(
                version="patterns/another/versions/1")))
        self.assertEqual(["content.version"], self.fields(details))
        self.assertEqual("0", self.server.psql(
            "select count(*) from report where seat_id = '%s'" % tester.seat.split("/")[-1]))

    def test_usual_slips_come_back_as_questions(self):
        tester = self.new_tester(self.call())
        version = tester.patterns.GetVersion(patterns.GetVersionRequest(
            name=tester.seat.split("/testCalls/")[0] + "/versions/1"))
        width = version.estimates[0].before_blocking.width_mm
        content = part_report(20)
        content.finished = True
        content.width_before_mm = width / 2.54
        made = self.submit(tester, content)
        self.assertEqual([(report_pb2.SLIP_CODE_INCHES_AS_CENTIMETRES, "width_before_mm")],
                         [(s.code, s.field) for s in made.slips])
        self.assertAlmostEqual(width, made.slips[0].suggested, delta=width * 0.01)
        self.assertEqual(width / 2.54, made.content.width_before_mm)

    def test_a_designer_enters_a_report_on_behalf(self):
        tester = self.new_tester(self.call())
        made = self.designer.reports.CreateReport(
            reports.CreateReportRequest(parent=tester.seat, content=part_report(4)))
        self.assertTrue(made.on_behalf)
        self.assertEqual(made, tester.reports.GetReport(reports.GetReportRequest(name=made.name)))

    def test_a_closed_call_takes_no_report(self):
        call = self.call()
        tester = self.new_tester(call)
        self.designer.calls.CloseTestCall(calls.CloseTestCallRequest(name=call))
        self.assertEqual("CALL_STATE", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, tester.reports.CreateReport,
            reports.CreateReportRequest(parent=tester.seat, content=part_report(4)))))

    def test_a_filled_in_form_is_read_and_stored(self):
        tester = self.new_tester(self.call())
        self.submit(tester, whole_report(tester.seat))
        form = tester.calls.GetSeatForm(calls.GetSeatFormRequest(name=tester.seat)).form_text
        request = reports.CreateReportFromFormRequest(parent=tester.seat, form_text=form, validate_only=True)
        checked = tester.reports.CreateReportFromForm(request)
        self.assertEqual("", checked.report.name)
        request.validate_only = False
        stored = tester.reports.CreateReportFromForm(request)
        self.assertEqual(tester.seat + "/reports/2", stored.report.name)
        # A form, and a name, that were sent out before test calls had their present name.
        request.form_text = form.replace("/testCalls/", "/calls/")
        self.assertNotEqual(form, request.form_text)
        request.parent = tester.seat.replace("/testCalls/", "/calls/")
        self.assertEqual(tester.seat + "/reports/3",
                         tester.reports.CreateReportFromForm(request).report.name)
        sent = whole_report(tester.seat)
        for kept in ("yarn", "gauge_before", "gauge_after", "hook_mm", "minutes", "last_row",
                     "finished", "width_after_mm", "tape_step_mm", "worked_from", "hand", "terms"):
            self.assertEqual(getattr(sent, kept), getattr(stored.report.content, kept), kept)
        spoilt = form.replace("worked from: chart", "worked from: memory").replace(
            "time: ", "time: long ", 1)
        details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReportFromForm,
                               reports.CreateReportFromFormRequest(parent=tester.seat, form_text=spoilt))
        self.assertEqual({"form_text"}, set(self.fields(details)))
        for violation in details["BadRequest"].field_violations:
            self.assertRegex(violation.description, r"^Line \d+, ")
        # What can be read and is out of range is named by its question too.
        negative, = [line for line in form.splitlines() if line.startswith("yarn A length used:")]
        details = self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, tester.reports.CreateReportFromForm,
            reports.CreateReportFromFormRequest(
                parent=tester.seat, form_text=form.replace(negative, "yarn A length used: -3 m")))
        violation, = details["BadRequest"].field_violations
        self.assertEqual("form_text", violation.field)
        self.assertEqual('Line %d, "yarn A length used", must be between 0.01 and 100000 m (got "-3").'
                         % (form.splitlines().index(negative) + 1), violation.description)
        other = self.new_tester(tester.seat.split("/seats/")[0])
        self.refused(grpc.StatusCode.INVALID_ARGUMENT, other.reports.CreateReportFromForm,
                     reports.CreateReportFromFormRequest(parent=other.seat, form_text=form))

    def test_sixteen_calls_take_reports_side_by_side(self):
        pattern = self.pattern()
        testers = [self.new_tester(self.call(pattern)) for _ in range(16)]

        def revise(tester):
            return [self.submit(tester, part_report(row, row_fault(row))).name
                    for row in range(1, 6)]

        with concurrent.futures.ThreadPoolExecutor(16) as pool:
            for tester, names in zip(testers, pool.map(revise, testers)):
                self.assertEqual([tester.seat + "/reports/%d" % n for n in range(1, 6)], names)
        self.assertNotIn("40001", self.server.log_text())


class ErrataTest(LiveTest):
    def listed(self, caller, call, **more):
        return caller.reports.ListErrata(reports.ListErrataRequest(parent=call, **more)).errata

    def test_an_erratum_keeps_its_name_through_revisions_until_withdrawn(self):
        call = self.call()
        tester = self.new_tester(call)
        first = self.submit(tester, part_report(9, row_fault(7), row_fault(8), row_fault(7)))
        self.assertEqual(3, len(set(first.errata)))
        second = self.submit(tester, part_report(
            12, row_fault(8, remark="looked again"), row_fault(11), row_fault(7)))
        self.assertEqual(first.errata[1], second.errata[0])
        self.assertIn(second.errata[2], (first.errata[0], first.errata[2]))
        self.assertNotIn(second.errata[1], first.errata)
        again = tester.reports.GetReport(reports.GetReportRequest(name=first.name))
        self.assertEqual((first.content, first.errata), (again.content, again.errata))
        present = self.listed(tester, call)
        self.assertEqual([7, 8, 11], [e.chart_row for e in present])
        self.assertEqual("looked again", present[1].entry.remark)
        self.assertEqual(second.name, present[1].report)
        every = self.listed(tester, call, show_withdrawn=True)
        self.assertEqual(1, sum(e.withdrawn for e in every))
        self.assertEqual(4, len(every))
        pages = [self.listed(tester, call, page_size=2)[:]]
        self.assertEqual([7, 8], [e.chart_row for e in pages[0]])

    def test_stitches_counted_from_the_row_start_are_turned_into_the_charts(self):
        call = self.call()
        tester = self.new_tester(call)
        content = part_report(9, row_fault(7, first_stitch=2, last_stitch=3,
                                           counted_from=report_pb2.COUNTED_FROM_ROW_START))
        content.hand = chart_pb2.HAND_LEFT
        self.submit(tester, content)
        place = self.listed(tester, call)[0]
        # Row 7 is RS: a left-handed maker starts at the last stitch, 24.
        self.assertEqual((22, 23), (place.first_stitch, place.last_stitch))
        get = reports.GetErratumRequest(name=place.name)
        for caller in (self.designer, tester, self.new_tester(call)):
            self.assertEqual(place, caller.reports.GetErratum(get))
        self.refused(grpc.StatusCode.NOT_FOUND, self.new_tester(self.call()).reports.GetErratum,
                     get)
        self.refused(grpc.StatusCode.NOT_FOUND, self.designer.reports.GetErratum,
                     reports.GetErratumRequest(name=call + "/errata/none"))

    def test_the_designer_decides_and_decides_otherwise(self):
        call = self.call()
        tester = self.new_tester(call)
        name = self.submit(tester, part_report(9, row_fault(7))).errata[0]

        def decision(state, note="", **more):
            return reports.DecideErratumRequest(name=name, state=state, note=note, **more)

        accept = decision(report_pb2.ERRATUM_STATE_ACCEPTED, request_id=live_server.request_id())
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.reports.DecideErratum, accept)
        accepted = self.designer.reports.DecideErratum(accept)
        self.assertEqual(report_pb2.ERRATUM_STATE_ACCEPTED, accepted.state)
        self.assertEqual(accepted, self.designer.reports.DecideErratum(accept))
        self.assertEqual("ERRATUM_STATE", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.reports.DecideErratum,
            decision(report_pb2.ERRATUM_STATE_ACCEPTED))))
        self.assertEqual(["note"], self.fields(self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, self.designer.reports.DecideErratum,
            decision(report_pb2.ERRATUM_STATE_DECLINED))))
        declined = self.designer.reports.DecideErratum(
            decision(report_pb2.ERRATUM_STATE_DECLINED, "as drawn"))
        self.assertEqual(("as drawn", True), (declined.decision_note,
                                              declined.HasField("decide_time")))
        self.assertEqual(0, len(self.listed(tester, call, state=report_pb2.ERRATUM_STATE_OPEN)))
        reopened = self.designer.reports.DecideErratum(
            decision(report_pb2.ERRATUM_STATE_OPEN, "looked again"))
        self.assertFalse(reopened.HasField("decide_time"))

    def test_other_testers_confirm_what_they_have_worked(self):
        call = self.call()
        tester, other = self.new_tester(call), self.new_tester(call)
        name = self.submit(tester, part_report(9, row_fault(7))).errata[0]

        def word(confirmation):
            return reports.ConfirmErratumRequest(name=name, confirmation=confirmation)

        met, right = report_pb2.CONFIRMATION_MET_IT_TOO, report_pb2.CONFIRMATION_WORKED_IT_RIGHT
        self.assertEqual("OWN_ERRATUM", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, tester.reports.ConfirmErratum, word(met))))
        self.assertEqual("ROW_NOT_REACHED", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, other.reports.ConfirmErratum, word(met))))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, self.designer.reports.ConfirmErratum,
                     word(met))
        self.submit(other, part_report(7))
        other.reports.ConfirmErratum(word(right))
        confirmed = other.reports.ConfirmErratum(word(met))
        self.assertEqual([(other.seat, met)],
                         [(c.seat, c.confirmation) for c in confirmed.confirmations])
        self.assertEqual([confirmed], list(self.listed(tester, call)))
        self.assertNotIn("Uwe", str(confirmed))

if __name__ == "__main__":
    unittest.main()
