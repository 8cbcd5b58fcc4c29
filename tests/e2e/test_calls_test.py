"""Test calls and seats against a live server."""

import concurrent.futures
import os
import shutil
import subprocess
import tempfile
import unittest

import live_server
import patterns_test
from live_calls import Caller, LiveTest, SECOND, Tester, part_report, settings

import grpc
from google.protobuf import field_mask_pb2
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import release_service_pb2 as releases
from rowproof.v1 import report_service_pb2 as reports
from rowproof.v1 import test_call_pb2
from rowproof.v1 import test_call_service_pb2 as calls


class CallsTest(LiveTest):
    def test_a_draft_version_is_not_sent_to_testers(self):
        pattern = self.pattern()
        draft = self.version(pattern, {(5, 3), (6, 3)})
        details = self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.CreateTestCall,
            calls.CreateTestCallRequest(parent=pattern, version=draft, settings=settings()))
        self.assertEqual("VERSION_IS_DRAFT", self.reason(details))
        listed = self.designer.calls.ListTestCalls(calls.ListTestCallsRequest(parent=pattern))
        self.assertEqual(0, len(listed.test_calls))

    def test_wrong_settings_name_their_field(self):
        pattern = self.pattern()
        for wrong, field in ((settings(size="XXL"), "settings.sizes[0].size"),
                             (settings(deadline="2020-01-01"), "settings.deadline"),
                             (settings(deadline="soon"), "settings.deadline"),
                             (settings(reward="x" * 2001), "settings.reward"),
                             (settings(notes="a\x00b"), "settings.notes")):
            details = self.refused(
                grpc.StatusCode.INVALID_ARGUMENT, self.designer.calls.CreateTestCall,
                calls.CreateTestCallRequest(parent=pattern, version=pattern + "/versions/1",
                                            settings=wrong))
            self.assertEqual([field], self.fields(details))

    def test_a_call_is_made_changed_opened_closed_and_opened_again(self):
        pattern = self.pattern()
        request = calls.CreateTestCallRequest(
            parent=pattern, version=pattern + "/versions/1",
            settings=settings(notes="one\ntwo", deadline="2030-02-28", confidential=False),
            request_id=live_server.request_id())
        made = self.designer.calls.CreateTestCall(request)
        self.assertEqual(made, self.designer.calls.CreateTestCall(request))
        self.assertEqual(test_call_pb2.CALL_STATE_DRAFT, made.state)
        self.assertEqual("2030-02-28", made.settings.deadline)
        self.assertFalse(made.settings.confidential)
        self.assertTrue(made.settings.photographs_by_permission)
        self.assertEqual(2, made.progress[0].required_count)
        read = self.designer.calls.GetTestCall(calls.GetTestCallRequest(name=made.name))
        self.assertEqual(made, read)
        def change(*paths, etag=made.etag, **said):
            return calls.UpdateTestCallRequest(
                test_call=test_call_pb2.TestCall(name=made.name, etag=etag,
                                                 settings=test_call_pb2.CallSettings(**said)),
                update_mask=field_mask_pb2.FieldMask(paths=paths))
        changed = self.designer.calls.UpdateTestCall(change(reward="the corrected pattern"))
        self.assertEqual(("the corrected pattern", "one\ntwo", "2030-02-28"), (
            changed.settings.reward, changed.settings.notes, changed.settings.deadline))
        self.refused(grpc.StatusCode.ABORTED, self.designer.calls.UpdateTestCall,
                     change(reward="nothing"))
        emptied = self.designer.calls.UpdateTestCall(
            change("settings.deadline", "settings.reward", etag="", notes="not named"))
        self.assertEqual(("", "", "one\ntwo"), (
            emptied.settings.deadline, emptied.settings.reward, emptied.settings.notes))
        for path in ("state", "settings.nothing", "settings.sizes.seats"):
            self.assertEqual(["update_mask"], self.fields(self.refused(
                grpc.StatusCode.INVALID_ARGUMENT, self.designer.calls.UpdateTestCall,
                change(path, etag=""))))
        self.assertIn("test_call.settings.title", self.fields(self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, self.designer.calls.UpdateTestCall,
            change("*", etag="", reward="but no title"))))
        opening = calls.OpenTestCallRequest(name=made.name, request_id=live_server.request_id())
        opened = self.designer.calls.OpenTestCall(opening)
        self.assertEqual(test_call_pb2.CALL_STATE_OPEN, opened.state)
        self.assertEqual(opened, self.designer.calls.OpenTestCall(opening))
        self.assertEqual("CALL_STATE", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.OpenTestCall,
            calls.OpenTestCallRequest(name=made.name))))
        closed = self.designer.calls.CloseTestCall(calls.CloseTestCallRequest(name=made.name))
        self.assertEqual(test_call_pb2.CALL_STATE_CLOSED, closed.state)
        reopened = self.designer.calls.ReopenTestCall(calls.ReopenTestCallRequest(name=made.name))
        self.assertEqual(test_call_pb2.CALL_STATE_OPEN, reopened.state)

    def test_pages_of_calls_and_seats_meet_without_gap(self):
        pattern = self.pattern()
        made = [self.call(pattern, opened=False) for _ in range(5)]
        found, token = [], ""
        while True:
            page = self.designer.calls.ListTestCalls(calls.ListTestCallsRequest(
                parent=pattern, page_size=2, page_token=token))
            found += [c.name for c in page.test_calls]
            token = page.next_page_token
            if not token:
                break
        self.assertEqual(list(reversed(made)), found)
        offered = [self.offer(made[0]).name for _ in range(3)]
        first = self.designer.calls.ListSeats(calls.ListSeatsRequest(parent=made[0], page_size=2))
        second = self.designer.calls.ListSeats(calls.ListSeatsRequest(
            parent=made[0], page_size=2, page_token=first.next_page_token))
        self.assertEqual(offered, [s.name for s in list(first.seats) + list(second.seats)])
        self.assertEqual("", second.next_page_token)


class SeatsTest(LiveTest):
    def test_an_invitation_is_used_once(self):
        call = self.call(opened=False)
        request = calls.CreateSeatRequest(parent=call, size="one size",
                                          request_id=live_server.request_id())
        lost = self.designer.calls.CreateSeat(request)
        offered = self.designer.calls.CreateSeat(request)
        self.assertEqual(lost.name, offered.name)
        self.assertNotEqual(lost.invitation, offered.invitation)
        taking = calls.TakeSeatRequest(invitation=offered.invitation, display_name="Uwe Untrue",
                                       mail_address="uwe@example.org",
                                       request_id=live_server.request_id())
        self.assertEqual("CALL_STATE", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.nobody.calls.TakeSeat, taking)))
        self.designer.calls.OpenTestCall(calls.OpenTestCallRequest(name=call))
        self.refused(grpc.StatusCode.NOT_FOUND, self.nobody.calls.TakeSeat, calls.TakeSeatRequest(
            invitation=lost.invitation, display_name="Uwe Untrue"))
        first = self.nobody.calls.TakeSeat(taking)
        second = self.nobody.calls.TakeSeat(taking)
        self.assertEqual((first.account, first.seat), (second.account, second.seat))
        self.assertNotEqual(first.secret, second.secret)
        get = calls.GetSeatRequest(name=first.seat.name)
        self.refused(grpc.StatusCode.UNAUTHENTICATED,
                     Caller(self.server, first.secret).calls.GetSeat, get)
        tester = Tester(self.server, second)
        self.assertEqual("Uwe Untrue", tester.calls.GetSeat(get).display_name)
        self.refused(grpc.StatusCode.NOT_FOUND, self.nobody.calls.TakeSeat, calls.TakeSeatRequest(
            invitation=offered.invitation, display_name="Uwe Untrue"))
        self.assertEqual("SEAT_STATE", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.CreateSeat, request)))
        progress = tester.calls.GetTestCall(calls.GetTestCallRequest(name=call)).progress[0]
        self.assertEqual((0, 1), (progress.offered_count, progress.taken_count))
        # What is stored of an invitation is its SHA-256.
        self.assertEqual("1", self.server.psql(
            "select count(*) from seat where invitation_sha256 = sha256('%s'::bytea)"
            % offered.invitation))

    def mine(self, caller):
        seats, token = [], ""
        while True:
            page = caller.calls.ListMySeats(calls.ListMySeatsRequest(page_size=1, page_token=token))
            seats += [s.name for s in page.seats]
            token = page.next_page_token
            if not token:
                return seats

    def test_a_tester_with_an_account_takes_the_seat_into_it(self):
        first, second = self.call(), self.call()
        taken = self.nobody.calls.TakeSeat(calls.TakeSeatRequest(
            invitation=self.offer(first).invitation, display_name="Uwe Untrue"))
        tester = Tester(self.server, taken)
        taking = calls.TakeSeatRequest(invitation=self.offer(second).invitation,
                                       request_id=live_server.request_id())
        # An expired or mistyped token makes no second account.
        self.refused(grpc.StatusCode.UNAUTHENTICATED,
                     Caller(self.server, "rp_unknown").calls.TakeSeat, taking)
        for named in ("display_name", "mail_address"):
            wrong = calls.TakeSeatRequest(invitation=taking.invitation)
            setattr(wrong, named, "uwe@example.org")
            self.assertEqual([named], self.fields(self.refused(
                grpc.StatusCode.INVALID_ARGUMENT, tester.calls.TakeSeat, wrong)))
        self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.nobody.calls.TakeSeat, taking)
        self.assertEqual("OWN_PATTERN", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.TakeSeat, taking)))
        accounts = self.server.psql("select count(*) from account")
        own = tester.calls.TakeSeat(taking)
        self.assertEqual((taken.account, ""), (own.account, own.secret))
        self.assertEqual("Uwe Untrue", own.seat.display_name)
        self.assertEqual(own, tester.calls.TakeSeat(taking))
        self.assertEqual(accounts, self.server.psql("select count(*) from account"))
        for seat in (taken.seat.name, own.seat.name):
            self.assertEqual("Uwe Untrue", tester.calls.GetSeat(
                calls.GetSeatRequest(name=seat)).display_name)
            self.assertEqual(seat + "/reports/1", tester.reports.CreateReport(
                reports.CreateReportRequest(parent=seat, content=part_report(3))).name)
        # Of all calls those of one's own, page by page, the newest first.
        self.assertEqual([own.seat.name, taken.seat.name], self.mine(tester))
        self.assertEqual([], self.mine(self.designer))
        self.refused(grpc.StatusCode.UNAUTHENTICATED, self.nobody.calls.ListMySeats,
                     calls.ListMySeatsRequest())
        again = calls.TakeSeatRequest(invitation=self.offer(second).invitation)
        self.assertEqual("SEAT_HELD", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, tester.calls.TakeSeat, again)))
        # A designer may test the pattern of another.
        _, token = self.server.new_designer("Olga Other")
        other = Caller(self.server, token)
        seat = other.calls.TakeSeat(again).seat.name
        self.assertEqual("Olga Other", other.calls.GetSeat(
            calls.GetSeatRequest(name=seat)).display_name)
        self.refused(grpc.StatusCode.NOT_FOUND, other.calls.GetSeat,
                     calls.GetSeatRequest(name=own.seat.name))

    def test_the_program_takes_a_seat_with_and_without_a_token(self):
        folder = tempfile.mkdtemp(prefix="rowproof-take-")
        self.addCleanup(shutil.rmtree, folder)

        def take(*options):
            return subprocess.run(
                [os.path.join(live_server.BUILD, "rowproof"), "--server", self.server.address,
                 "seat", "take", "-", *options],
                input=self.offer(self.call()).invitation, capture_output=True, text=True)

        self.assertEqual(3, take().returncode)  # nobody is named
        new = take("--name", "Uwe Untrue")
        self.assertEqual(0, new.returncode, new.stderr)
        token = os.path.join(folder, "token")
        with open(token, "w", opener=lambda path, flags: os.open(path, flags, 0o600)) as file:
            file.write(new.stdout.splitlines()[-1])
        own = take("--token-file", token)
        self.assertEqual(0, own.returncode, own.stderr)
        self.assertIn("It belongs to your account: accounts/", own.stdout)
        self.assertEqual(new.stdout.split("account: ")[1].split()[0],
                         own.stdout.split("account: ")[1].split()[0])

    def test_one_of_many_takers_of_one_invitation_wins(self):
        invitation = self.offer(self.call()).invitation

        def take(number):
            try:
                return self.nobody.calls.TakeSeat(calls.TakeSeatRequest(
                    invitation=invitation, display_name="Taker %d" % number)).account
            except grpc.RpcError as error:
                self.assertEqual(grpc.StatusCode.NOT_FOUND, error.code())
                return None

        with concurrent.futures.ThreadPoolExecutor(8) as pool:
            taken = [account for account in pool.map(take, range(16)) if account]
        self.assertEqual(1, len(taken))

    def test_testers_know_their_own_seat_alone(self):
        call = self.call()
        tester, other = self.new_tester(call), self.new_tester(call, "Vera Invented")
        stranger = self.new_tester(self.call(), "Stranger")
        self.submit(other, part_report(3))
        for method, request in (
                (tester.calls.GetSeat, calls.GetSeatRequest(name=other.seat)),
                (tester.calls.GetSeatForm, calls.GetSeatFormRequest(name=other.seat)),
                (tester.calls.GetSeatChanges, calls.GetSeatChangesRequest(name=other.seat)),
                (tester.calls.GiveUpSeat, calls.GiveUpSeatRequest(name=other.seat)),
                (tester.reports.GetReport,
                 reports.GetReportRequest(name=other.seat + "/reports/1")),
                (tester.reports.ListReports, reports.ListReportsRequest(parent=other.seat)),
                (tester.reports.CreateReport, reports.CreateReportRequest(parent=other.seat)),
                (stranger.calls.GetTestCall, calls.GetTestCallRequest(name=call)),
                (stranger.reports.ListErrata, reports.ListErrataRequest(parent=call))):
            self.refused(grpc.StatusCode.NOT_FOUND, method, request)
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.calls.ListSeats,
                     calls.ListSeatsRequest(parent=call))
        own = tester.reports.ListReports(reports.ListReportsRequest(parent=call))
        self.assertEqual(0, len(own.reports))
        pattern = call.split("/testCalls/")[0]
        self.call(pattern)
        listed = tester.calls.ListTestCalls(calls.ListTestCallsRequest(parent=pattern))
        self.assertEqual([call], [c.name for c in listed.test_calls])

    def test_an_editor_reads_reports_without_names(self):
        call = self.call()
        tester = self.new_tester(call)
        self.submit(tester, part_report(3))
        _, secret = live_server.new_editor(self.server, self.designer.patterns,
                                           call.split("/testCalls/")[0], "Edith Editor")
        editor = Caller(self.server, secret)
        seats = editor.calls.ListSeats(calls.ListSeatsRequest(parent=call)).seats
        self.assertEqual([""], [seat.display_name for seat in seats])
        self.assertEqual("", editor.calls.GetSeat(
            calls.GetSeatRequest(name=tester.seat)).display_name)
        named = self.designer.calls.ListSeats(calls.ListSeatsRequest(parent=call)).seats
        self.assertEqual(["Uwe Untrue"], [seat.display_name for seat in named])
        self.assertEqual(1, len(editor.reports.ListReports(
            reports.ListReportsRequest(parent=call)).reports))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, editor.reports.CreateReport,
                     reports.CreateReportRequest(parent=tester.seat))

    def test_a_draft_is_deleted_with_its_invitations(self):
        pattern = self.pattern()
        draft, opened = self.call(pattern, opened=False), self.call(pattern)
        offered = self.offer(draft)
        tester = self.new_tester(opened)
        self.refused(grpc.StatusCode.NOT_FOUND, tester.calls.DeleteTestCall,
                     calls.DeleteTestCallRequest(name=draft))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.calls.DeleteTestCall,
                     calls.DeleteTestCallRequest(name=opened))
        self.assertEqual("CALL_STATE", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.DeleteTestCall,
            calls.DeleteTestCallRequest(name=opened))))
        request = calls.DeleteTestCallRequest(name=draft, request_id=live_server.request_id())
        self.designer.calls.DeleteTestCall(request)
        self.designer.calls.DeleteTestCall(request)
        self.refused(grpc.StatusCode.NOT_FOUND, self.designer.calls.DeleteTestCall,
                     calls.DeleteTestCallRequest(name=draft))
        self.refused(grpc.StatusCode.NOT_FOUND, self.nobody.calls.TakeSeat, calls.TakeSeatRequest(
            invitation=offered.invitation, display_name="Uwe Untrue"))
        listed = self.designer.calls.ListTestCalls(calls.ListTestCallsRequest(parent=pattern))
        self.assertEqual([opened], [c.name for c in listed.test_calls])

    def test_a_repeated_request_does_not_find_a_call_that_was_deleted(self):
        pattern = self.pattern()
        request = calls.CreateTestCallRequest(
            parent=pattern, version=pattern + "/versions/1", settings=settings(),
            request_id=live_server.request_id())
        made = self.designer.calls.CreateTestCall(request)
        self.designer.calls.DeleteTestCall(calls.DeleteTestCallRequest(name=made.name))
        self.refused(grpc.StatusCode.NOT_FOUND, self.designer.calls.CreateTestCall, request)

    def test_seats_are_offered_all_or_none(self):
        call = self.call()

        def batch(*sizes, **more):
            return calls.BatchCreateSeatsRequest(
                parent=call, requests=[calls.CreateSeatRequest(size=s) for s in sizes], **more)

        request = batch("one size", "one size", request_id=live_server.request_id())
        lost = self.designer.calls.BatchCreateSeats(request).seats
        made = self.designer.calls.BatchCreateSeats(request).seats
        self.assertEqual([s.name for s in lost], [s.name for s in made])
        self.assertEqual(4, len({s.invitation for s in lost} | {s.invitation for s in made}))
        self.assertEqual(["requests[1].size"], self.fields(self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, self.designer.calls.BatchCreateSeats,
            batch("one size", "huge"))))
        for sizes in ([], ["one size"] * 101):
            self.assertEqual(["requests"], self.fields(self.refused(
                grpc.StatusCode.INVALID_ARGUMENT, self.designer.calls.BatchCreateSeats,
                batch(*sizes))))
        other = batch("one size")
        other.requests[0].parent = self.call()
        self.assertEqual(["requests[0].parent"], self.fields(self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, self.designer.calls.BatchCreateSeats, other)))
        tester = Tester(self.server, self.nobody.calls.TakeSeat(calls.TakeSeatRequest(
            invitation=made[1].invitation, display_name="Uwe Untrue")))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.calls.BatchCreateSeats,
                     batch("one size"))
        self.assertEqual(2, len(self.designer.calls.ListSeats(
            calls.ListSeatsRequest(parent=call)).seats))

    def test_an_archived_pattern_takes_nothing_new_and_hides_nothing(self):
        pattern = self.pattern()
        call = self.call(pattern)
        tester = self.new_tester(call)
        stub = self.designer.patterns
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.patterns.ArchivePattern,
                     patterns.ArchivePatternRequest(name=pattern))
        archived = stub.ArchivePattern(patterns.ArchivePatternRequest(name=pattern))
        self.assertTrue(archived.HasField("archive_time"))
        self.assertEqual(archived, stub.ArchivePattern(
            patterns.ArchivePatternRequest(name=pattern)))
        self.assertEqual(archived, stub.GetPattern(patterns.GetPatternRequest(name=pattern)))
        for more, seen in ((dict(), False), (dict(show_archived=True), True)):
            listed = stub.ListPatterns(patterns.ListPatternsRequest(page_size=1000, **more))
            self.assertEqual(seen, pattern in [p.name for p in listed.patterns])
        content = patterns_test.content(patterns_test.picture(20, 24))
        for validate_only in (False, True):
            self.assertEqual("PATTERN_ARCHIVED", self.reason(self.refused(
                grpc.StatusCode.FAILED_PRECONDITION, stub.CreateVersion,
                patterns.CreateVersionRequest(parent=pattern, content=content,
                                              validate_only=validate_only))))
        self.assertEqual("PATTERN_ARCHIVED", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.CreateTestCall,
            calls.CreateTestCallRequest(parent=pattern, version=pattern + "/versions/1",
                                        settings=settings()))))
        # The call that is open goes on.
        self.submit(tester, part_report(3))
        taken_up = stub.UnarchivePattern(patterns.UnarchivePatternRequest(
            name=pattern, etag=archived.etag))
        self.assertFalse(taken_up.HasField("archive_time"))
        self.refused(grpc.StatusCode.ABORTED, stub.ArchivePattern,
                     patterns.ArchivePatternRequest(name=pattern, etag=archived.etag))
        self.version(pattern)

    def test_seats_end_by_their_tester_or_the_designer(self):
        call = self.call()
        tester, other = self.new_tester(call), self.new_tester(call)
        self.refused(grpc.StatusCode.PERMISSION_DENIED, self.designer.calls.GiveUpSeat,
                     calls.GiveUpSeatRequest(name=tester.seat))
        given_up = tester.calls.GiveUpSeat(calls.GiveUpSeatRequest(name=tester.seat))
        self.assertEqual(test_call_pb2.SEAT_STATE_GIVEN_UP, given_up.state)
        self.assertTrue(given_up.HasField("end_time"))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, tester.reports.CreateReport,
                     reports.CreateReportRequest(parent=tester.seat, content=part_report(3)))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, other.calls.CancelSeat,
                     calls.CancelSeatRequest(name=other.seat))
        cancelled = self.designer.calls.CancelSeat(calls.CancelSeatRequest(name=other.seat))
        self.assertEqual(test_call_pb2.SEAT_STATE_CANCELLED, cancelled.state)
        unused = self.offer(call)
        self.designer.calls.CancelSeat(calls.CancelSeatRequest(name=unused.name))
        self.refused(grpc.StatusCode.NOT_FOUND, self.nobody.calls.TakeSeat, calls.TakeSeatRequest(
            invitation=unused.invitation, display_name="Late Taker"))

    def test_who_left_keeps_their_own_reports_and_nothing_else(self):
        pattern = self.pattern()
        call = self.call(pattern)
        stopped, cancelled = self.new_tester(call), self.new_tester(call)
        for tester in (stopped, cancelled):
            self.submit(tester, part_report(3))
        giving_up = calls.GiveUpSeatRequest(name=stopped.seat, request_id=live_server.request_id())
        given_up = stopped.calls.GiveUpSeat(giving_up)
        self.assertEqual(given_up, stopped.calls.GiveUpSeat(giving_up))  # a repeat is answered alike
        self.designer.calls.CancelSeat(calls.CancelSeatRequest(name=cancelled.seat))
        version = pattern + "/versions/1"
        for tester in (stopped, cancelled):
            listed = tester.reports.ListReports(reports.ListReportsRequest(parent=tester.seat))
            self.assertEqual([3], [report.content.last_row for report in listed.reports])
            tester.reports.GetReport(reports.GetReportRequest(name=listed.reports[0].name))
            tester.calls.GetSeat(calls.GetSeatRequest(name=tester.seat))
            mine = tester.calls.ListMySeats(calls.ListMySeatsRequest())
            self.assertEqual([tester.seat], [seat.name for seat in mine.seats])
            for method, request in (
                    (tester.patterns.GetPattern, patterns.GetPatternRequest(name=pattern)),
                    (tester.patterns.GetVersion, patterns.GetVersionRequest(name=version)),
                    (tester.patterns.WriteVersionRows,
                     patterns.WriteVersionRowsRequest(name=version)),
                    (tester.calls.ListTestCalls, calls.ListTestCallsRequest(parent=pattern)),
                    (tester.releases.ListReleases,
                     releases.ListReleasesRequest(parent=pattern))):
                self.refused(grpc.StatusCode.NOT_FOUND, method, request)
            for method, request in (
                    (tester.calls.GetTestCall, calls.GetTestCallRequest(name=call)),
                    (tester.calls.GetSeatForm, calls.GetSeatFormRequest(name=tester.seat)),
                    (tester.calls.GetSeatChanges, calls.GetSeatChangesRequest(name=tester.seat)),
                    (tester.reports.ListErrata, reports.ListErrataRequest(parent=call))):
                self.refused(grpc.StatusCode.PERMISSION_DENIED, method, request)
            self.assertEqual(0, len(tester.patterns.ListPatterns(
                patterns.ListPatternsRequest()).patterns))

    def test_a_corrected_version_lies_behind_some_and_ahead_of_others(self):
        pattern = self.pattern()
        call = self.call(pattern)
        early, late, silent = (self.new_tester(call) for _ in range(3))
        self.submit(early, part_report(10))
        self.submit(late, part_report(18))
        corrected = self.version(pattern, SECOND)
        self.refused(grpc.StatusCode.NOT_FOUND, early.patterns.GetVersion,
                     patterns.GetVersionRequest(name=corrected))
        request = calls.SendVersionRequest(name=call, version=corrected,
                                           request_id=live_server.request_id())
        sent = self.designer.calls.SendVersion(request)
        self.assertEqual((1, 2, 0), (sent.behind_count, sent.ahead_count, sent.unchanged_count))
        self.assertEqual(corrected, sent.test_call.version)
        self.assertEqual(sent, self.designer.calls.SendVersion(request))
        changes = {c.seat: c for c in sent.seats}
        # The off-colour cell of row 15 is a drop in worked row 16.
        self.assertEqual([16], [r.new_row for r in changes[late.seat].behind])
        self.assertEqual([16], [r.new_row for r in changes[early.seat].ahead])
        self.assertEqual([(9, 9)],
                         [(s.first, s.last) for s in changes[late.seat].behind[0].stitches])
        self.assertEqual((11, 19, 1),
                         tuple(changes[t.seat].next_row for t in (early, late, silent)))
        own = early.calls.GetSeatChanges(calls.GetSeatChangesRequest(name=early.seat))
        self.assertEqual(changes[early.seat], own)
        early.patterns.GetVersion(patterns.GetVersionRequest(name=corrected))
        self.assertEqual("VERSION_SENT", self.reason(self.refused(
            grpc.StatusCode.FAILED_PRECONDITION, self.designer.calls.SendVersion,
            calls.SendVersionRequest(name=call, version=corrected))))
        # A report of the present version has nothing behind.
        self.submit(late, part_report(18))
        now = late.calls.GetSeatChanges(calls.GetSeatChangesRequest(name=late.seat))
        self.assertEqual((0, 0, 19), (len(now.behind), len(now.ahead), now.next_row))

if __name__ == "__main__":
    unittest.main()
