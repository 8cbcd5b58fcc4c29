"""Patterns and versions against a live server, as a designer, an editor and a stranger."""

import subprocess
import unittest

import live_server

import grpc
from google.protobuf import field_mask_pb2
from rowproof.v1 import account_pb2, account_service_pb2, account_service_pb2_grpc
from rowproof.v1 import chart_pb2, estimate_pb2, materials_pb2, pattern_pb2, yarn_calibration_pb2, yarn_pb2
from rowproof.v1 import chart_service_pb2, chart_service_pb2_grpc
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import pattern_service_pb2_grpc
from rowproof.v1 import yarn_pb2


def picture(rows, stitches, set_cells=()):
    """A picture chart of plain rows (A in odd rows, B in even) with the given cells exchanged."""
    width = (stitches + 7) // 8
    cells = bytearray(width * rows)
    for row in range(1, rows + 1):
        for stitch in range(1, stitches + 1):
            is_b = (row % 2 == 0) != ((row, stitch) in set_cells)
            if is_b:
                cells[(row - 1) * width + (stitch - 1) // 8] |= 1 << ((stitch - 1) % 8)
    return chart_pb2.Chart(row_count=rows, stitch_count=stitches, cells=bytes(cells),
                           convention=chart_pb2.CONVENTION_PICTURE)


def materials():
    return materials_pb2.Materials(
        yarns=[live_server.role(letter, yarn_pb2.Yarn(
            weight_class=4, ball_band=yarn_pb2.BallBand(length_m=85, mass_g=50)))
               for letter in "AB"],
        gauge=materials_pb2.Gauge(stitches_per_decimetre=14, rows_per_decimetre=16))


def content(chart):
    return pattern_pb2.VersionContent(
        title="Invented tile",
        design=chart_pb2.Design(technique=chart_pb2.TECHNIQUE_SPIKE,
                                facing=chart_pb2.FACING_TWO_FACE, ends=chart_pb2.ENDS_CUT,
                                chart=chart),
        materials=materials())


class PatternsTest(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()
        cls.account, cls.token = cls.server.new_designer()
        cls.stub = pattern_service_pb2_grpc.PatternServiceStub(cls.server.channel(cls.token))

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    def pattern(self):
        return self.stub.CreatePattern(patterns.CreatePatternRequest(
            title="Invented tile", request_id=live_server.request_id())).name

    def refused(self, code, call, request):
        with self.assertRaises(grpc.RpcError) as caught:
            call(request)
        self.assertEqual(code, caught.exception.code(), caught.exception.details())
        return caught.exception

    def why_not(self, call, request):
        met = self.refused(grpc.StatusCode.FAILED_PRECONDITION, call, request)
        return live_server.details_of(met)["PreconditionFailure"].violations[0].type

    def test_a_workable_version_is_stored_with_findings_and_estimate(self):
        name = self.pattern()
        version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=name, content=content(picture(20, 24, {(5, 3), (7, 3)})), note="first",
            request_id=live_server.request_id()))
        self.assertEqual(name + "/versions/1", version.name)
        self.assertEqual(pattern_pb2.VERSION_STATE_WORKABLE, version.state)
        self.assertEqual(2, len(version.estimates[0].yarns))
        self.assertEqual(24, version.estimates[0].stitch_count)
        read = self.stub.GetVersion(patterns.GetVersionRequest(name=version.name))
        self.assertEqual(version, read)

    def test_another_maker_is_estimated_for_their_own_hands(self):
        version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=self.pattern(), content=content(picture(20, 24, {(5, 3), (7, 3)})),
            request_id=live_server.request_id()))
        maker = materials_pb2.AnotherMaker(
            gauge_readings=[materials_pb2.GaugeReading(stitches=12, rows=14, stitch_span_mm=101.6,
                                                      row_span_mm=101.6)],
            ends=chart_pb2.ENDS_CARRIED,
            yarns=[live_server.role("A", yarn_pb2.Yarn(weight_class=5))])
        request = patterns.EstimateVersionRequest(
            name=version.name, another_maker=maker, size=version.estimates[0].size)
        other, = self.stub.EstimateVersion(request).sizes
        own = version.estimates[0]
        self.assertAlmostEqual(24 * 101.6 / 12, other.before_blocking.width_mm, 6)
        self.assertAlmostEqual(24 * 100 / 14, own.before_blocking.width_mm, 6)
        self.assertIn(estimate_pb2.PART_KIND_CARRIED, [p.kind for p in other.yarns[0].parts])
        self.assertNotIn(estimate_pb2.PART_KIND_CARRIED, [p.kind for p in own.yarns[0].parts])
        self.assertAlmostEqual(1, sum(part.share for part in other.yarns[1].parts), 9)
        self.assertEqual(["A", "B"], [live_server.word(yarn.role) for yarn in other.yarns])
        self.assertFalse(other.yarns[0].HasField("ball_count"))  # their yarn has no band
        self.assertIn(estimate_pb2.CAUTION_CODE_SHOW_THROUGH,
                      [caution.code for caution in other.cautions])
        stored = self.stub.GetVersion(patterns.GetVersionRequest(name=version.name))
        self.assertEqual(version, stored)
        for change, field in (
                (lambda r: setattr(r, "size", "nowhere"), "size"),
                (lambda r: setattr(r.another_maker.yarns[0], "role",
                                   yarn_pb2.YARN_ROLE_C),
                 "another_maker.yarns[0].role"),
                (lambda r: setattr(r.another_maker.gauge_readings[0], "rows", float("inf")),
                 "another_maker.gauge_readings[0].rows"),
                (lambda r: setattr(r.another_maker, "tail_length_mm", -1),
                 "another_maker.tail_length_mm")):
            wrong = patterns.EstimateVersionRequest()
            wrong.CopyFrom(request)
            change(wrong)
            error = self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.stub.EstimateVersion,
                                 wrong)
            self.assertEqual([field], [v.field for v in live_server.details_of(
                error)["BadRequest"].field_violations])

    def test_a_version_is_estimated_with_the_calibration_of_a_swatch(self):
        """The whole way of a designer: measure a swatch, submit with it, read the estimate."""
        assumed = self.stub.CreateVersion(
            patterns.CreateVersionRequest(parent=self.pattern(), content=content(picture(6, 6))))
        request = chart_service_pb2.CalibrateYarnRequest(name="Oat (invented)")
        swatch = request.measurements.add().swatch
        swatch.stitches.add(stitch=yarn_calibration_pb2.STITCH_KIND_SC, count=400)
        swatch.gauge.stitches_per_decimetre = 20
        swatch.gauge.rows_per_decimetre = 25
        swatch.yarn.wraps_per_inch = 12.7
        swatch.length_mm = 15650  # the assumed paths say 14,227
        charts = chart_service_pb2_grpc.ChartServiceStub(self.server.channel())
        mine = charts.CalibrateYarn(request)
        calibrated = content(picture(6, 6))
        calibrated.materials.yarn_calibration.CopyFrom(mine)
        name = self.stub.CreateVersion(
            patterns.CreateVersionRequest(parent=self.pattern(), content=calibrated)).name
        stored = self.stub.GetVersion(patterns.GetVersionRequest(name=name))
        self.assertEqual(stored.content.materials.yarn_calibration.covariance, mine.covariance)
        before, after = assumed.estimates[0], stored.estimates[0]
        self.assertEqual((before.calibration, after.calibration), ("", "Oat (invented)"))
        for was, now in zip(before.yarns, after.yarns):
            self.assertGreater(now.length_mm, was.length_mm)
            self.assertLess(now.length_uncertainty_mm / now.length_mm,
                            was.length_uncertainty_mm / was.length_mm)

    def test_a_version_with_errors_is_a_draft(self):
        name = self.pattern()
        version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=name, content=content(picture(20, 24, {(5, 3), (6, 3)}))))
        self.assertEqual(pattern_pb2.VERSION_STATE_DRAFT, version.state)
        self.assertEqual([chart_pb2.FINDING_CODE_DROP_OVER_DROP],
                         [f.code for f in version.check.findings])

    def test_a_repeated_request_creates_nothing_twice(self):
        name = self.pattern()
        request = patterns.CreateVersionRequest(parent=name, content=content(picture(8, 9)),
                                                request_id=live_server.request_id())
        first = self.stub.CreateVersion(request)
        self.assertEqual(first, self.stub.CreateVersion(request))
        listed = self.stub.ListVersions(patterns.ListVersionsRequest(parent=name))
        self.assertEqual(1, len(listed.versions))
        request.note = "another content"
        error = self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.stub.CreateVersion, request)
        self.assertEqual("REQUEST_ID_REUSED", live_server.details_of(error)["ErrorInfo"].reason)

    def test_wrong_content_names_its_field_and_changes_nothing(self):
        name = self.pattern()
        wrong = []
        for change, field in (
                (lambda c: c.design.chart.ClearField("cells"), "content.design.chart.cells"),
                (lambda c: setattr(c.design.chart, "row_count", 0),
                 "content.design.chart.row_count"),
                (lambda c: setattr(c.materials.gauge, "stitches_per_decimetre", float("nan")),
                 "content.materials.gauge.stitches_per_decimetre"),
                (lambda c: setattr(c.materials.gauge, "rows_per_decimetre", -3),
                 "content.materials.gauge.rows_per_decimetre"),
                (lambda c: setattr(c, "title", "a\x00b"), "content.title"),
                (lambda c: c.design.sizes.add(name="S", row_repeat_count=3),
                 "content.design.sizes[0].row_repeat_count"),
                (lambda c: c.design.row_band.MergeFrom(chart_pb2.Band(first=2, last=99)),
                 "content.design.row_band.last")):
            wanted = content(picture(8, 9))
            change(wanted)
            error = self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.stub.CreateVersion,
                                 patterns.CreateVersionRequest(parent=name, content=wanted))
            violations = live_server.details_of(error)["BadRequest"].field_violations
            wrong.append((field, [v.field for v in violations]))
        for field, met in wrong:
            self.assertEqual([field], met)
        self.assertEqual(0, self.stub.GetPattern(
            patterns.GetPatternRequest(name=name)).version_count)

    def test_hostile_images_are_refused(self):
        name = self.pattern()
        three = subprocess.run(["convert", "-size", "3x1", "xc:red", "xc:green", "xc:blue",
                                "+append", "-scale", "30x10!", "png:-"],
                               check=True, capture_output=True).stdout
        two = subprocess.run(["convert", "-size", "64x64", "pattern:checkerboard", "-monochrome",
                              "png:-"], check=True, capture_output=True).stdout
        bomb = (b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR" + (60000).to_bytes(4, "big") * 2 +
                b"\x08\x02\x00\x00\x00" + b"\x00\x00\x00\x00")
        for image in (three, two[:len(two) // 2], bomb, b"", b"P1 0 0\n", b"\x00" * (16 << 20) + b"x"):
            wanted = content(picture(2, 2))
            wanted.design.file.CopyFrom(chart_pb2.ChartFile(content=image))
            error = self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.stub.CreateVersion,
                                 patterns.CreateVersionRequest(parent=name, content=wanted))
            field = live_server.details_of(error)["BadRequest"].field_violations[0].field
            self.assertTrue(field.startswith("content.design.file"), field)

    def test_a_chart_of_120_000_cells_is_accepted(self):
        version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=self.pattern(), content=content(picture(400, 300, {(9, 7), (399, 300)}))))
        self.assertEqual(400, version.content.design.chart.row_count)

    def test_a_version_of_every_technique_is_stored(self):
        name = self.pattern()
        for technique, facing, ends, form in (
                ("OVERLAY", "ONE_FACE", "CUT", "FLAT"), ("OVERLAY", "ONE_FACE", "WAITING", "TUBE"),
                ("INSET", "TWO_FACE", "WAITING", "FLAT"), ("SPIKE", "PAIRED", "WAITING", "FLAT")):
            wanted = content(picture(20, 24, {(5, 3), (7, 3)}))
            wanted.design.technique = chart_pb2.Technique.Value("TECHNIQUE_" + technique)
            wanted.design.facing = chart_pb2.Facing.Value("FACING_" + facing)
            wanted.design.ends = chart_pb2.Ends.Value("ENDS_" + ends)
            wanted.design.form = chart_pb2.Form.Value("FORM_" + form)
            version = self.stub.CreateVersion(patterns.CreateVersionRequest(
                parent=name, content=wanted))
            self.assertEqual(pattern_pb2.VERSION_STATE_WORKABLE, version.state, technique)
            self.assertEqual(40 if technique == "INSET" else 20, version.estimates[0].row_count)
            read = self.stub.GetVersion(patterns.GetVersionRequest(name=version.name))
            self.assertEqual(version, read)
            self.assertEqual(wanted.design.technique, read.content.design.technique)
            self.assertEqual(wanted.design.form, read.content.design.form)

    def test_a_version_of_three_colours_is_stored(self):
        chart = chart_pb2.Chart(
            row_count=4, stitch_count=4, convention=chart_pb2.CONVENTION_PICTURE,
            row_colours=[1, 2, 3, 2],  # A, B, C, B
            picture_colours=bytes([1, 1, 1, 1, 2, 2, 3, 2, 3, 2, 3, 3, 2, 2, 2, 2]))
        wanted = content(chart)
        wanted.materials.yarns.append(live_server.role("C", yarn_pb2.Yarn(weight_class=4)))
        version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=self.pattern(), content=wanted))
        self.assertEqual(pattern_pb2.VERSION_STATE_WORKABLE, version.state, version.check)
        self.assertEqual(["A", "B", "C"],
                         [live_server.word(y.role) for y in version.estimates[0].yarns])
        read = self.stub.GetVersion(patterns.GetVersionRequest(name=version.name))
        self.assertEqual(version, read)
        self.assertEqual(chart.picture_colours, read.content.design.chart.picture_colours)
        self.assertEqual(b"\x00\x04\x02\x00", read.content.design.chart.cells)

    def test_an_image_of_imagemagick_becomes_the_chart(self):
        image = subprocess.run(
            ["convert", "-size", "4x3", "xc:white", "-fill", "black", "-draw",
             "point 3,1", "-draw", "line 0,1 3,1", "-scale", "700%", "png:-"],
            check=True, capture_output=True).stdout
        wanted = content(picture(2, 2))
        wanted.design.file.CopyFrom(chart_pb2.ChartFile(content=image))
        version = self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=self.pattern(), content=wanted))
        self.assertEqual(b"\x00\x0f\x00", version.content.design.chart.cells)

    def test_a_stranger_sees_not_found(self):
        name = self.pattern()
        _, other = self.server.new_designer("Odo Invented")
        stranger = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel(other))
        self.refused(grpc.StatusCode.NOT_FOUND, stranger.GetPattern,
                     patterns.GetPatternRequest(name=name))
        self.refused(grpc.StatusCode.NOT_FOUND, stranger.CreateVersion,
                     patterns.CreateVersionRequest(parent=name, content=content(picture(4, 4))))
        nobody = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel())
        self.refused(grpc.StatusCode.UNAUTHENTICATED, nobody.GetPattern,
                     patterns.GetPatternRequest(name=name))

    def test_an_editor_reads_but_does_not_write(self):
        name = self.pattern()
        self.stub.CreateVersion(patterns.CreateVersionRequest(
            parent=name, content=content(picture(8, 9))))
        made, secret = live_server.new_editor(self.server, self.stub, name)
        editor = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel(secret))
        rows = editor.WriteVersionRows(patterns.WriteVersionRowsRequest(name=name + "/versions/1"))
        self.assertTrue(rows.rows[0].text.startswith("Row 1 (RS, A): sc in 2nd ch from hook"))
        self.refused(grpc.StatusCode.PERMISSION_DENIED, editor.UpdatePattern,
                     patterns.UpdatePatternRequest(
                         pattern=pattern_pb2.Pattern(name=name, title="Mine now")))
        for method, request in (
                (editor.GetEditor, patterns.GetEditorRequest(name=made.name)),
                (editor.ListEditors, patterns.ListEditorsRequest(parent=name)),
                (editor.CreateEditor, patterns.CreateEditorRequest(parent=name)),
                (editor.CreatePattern, patterns.CreatePatternRequest(title="No right to"))):
            self.refused(grpc.StatusCode.PERMISSION_DENIED, method, request)
        gone = patterns.DeleteEditorRequest(name=made.name, request_id=live_server.request_id())
        self.stub.DeleteEditor(gone)
        self.stub.DeleteEditor(gone)
        self.refused(grpc.StatusCode.NOT_FOUND, self.stub.DeleteEditor,
                     patterns.DeleteEditorRequest(name=made.name))
        self.refused(grpc.StatusCode.NOT_FOUND, editor.GetPattern,
                     patterns.GetPatternRequest(name=name))

    def test_an_editor_is_invited_once_and_with_an_account_that_is_there(self):
        name, other = self.pattern(), self.pattern()
        request = patterns.CreateEditorRequest(parent=name, label="for Edda", valid_days=3,
                                               request_id=live_server.request_id())
        lost, invited = self.stub.CreateEditor(request), self.stub.CreateEditor(request)
        self.assertEqual(lost.name, invited.name)
        self.assertEqual((pattern_pb2.EDITOR_STATE_INVITED, "for Edda", ""),
                         (invited.state, invited.label, invited.account))
        nobody = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel())
        accept = patterns.AcceptEditorInvitationRequest(
            invitation=lost.invitation, display_name="Edda Invented",
            request_id=live_server.request_id())
        self.refused(grpc.StatusCode.NOT_FOUND, nobody.AcceptEditorInvitation, accept)
        accept.invitation = invited.invitation
        self.assertEqual("OWN_PATTERN", self.why_not(
            self.stub.AcceptEditorInvitation,
            patterns.AcceptEditorInvitationRequest(invitation=invited.invitation)))
        first, again = (nobody.AcceptEditorInvitation(accept) for _ in range(2))
        self.assertEqual(first.editor, again.editor)
        self.assertNotEqual(first.secret, again.secret)
        self.assertEqual((pattern_pb2.EDITOR_STATE_ACTIVE, "Edda Invented", ""),
                         (again.editor.state, again.editor.display_name, again.editor.label))
        self.refused(grpc.StatusCode.NOT_FOUND, nobody.AcceptEditorInvitation,
                     patterns.AcceptEditorInvitationRequest(invitation=invited.invitation,
                                                            display_name="Somebody Else"))
        self.assertEqual(again.editor, self.stub.GetEditor(
            patterns.GetEditorRequest(name=invited.name)))
        editor = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel(again.secret))
        second = self.stub.CreateEditor(patterns.CreateEditorRequest(parent=name))
        self.assertEqual("EDITS_PATTERN", self.why_not(
            editor.AcceptEditorInvitation,
            patterns.AcceptEditorInvitationRequest(invitation=second.invitation)))
        listed, token = [], ""
        while True:
            page = self.stub.ListEditors(patterns.ListEditorsRequest(
                parent=name, page_size=1, page_token=token))
            listed += [e.name for e in page.editors]
            token = page.next_page_token
            if not token:
                break
        self.assertEqual([invited.name, second.name], listed)
        # A withdrawn invitation is void; the editor's own account reads another pattern as well.
        self.stub.DeleteEditor(patterns.DeleteEditorRequest(name=second.name))
        self.refused(grpc.StatusCode.NOT_FOUND, editor.AcceptEditorInvitation,
                     patterns.AcceptEditorInvitationRequest(invitation=second.invitation))
        invitation = self.stub.CreateEditor(patterns.CreateEditorRequest(parent=other)).invitation
        own = editor.AcceptEditorInvitation(
            patterns.AcceptEditorInvitationRequest(invitation=invitation))
        self.assertEqual((again.editor.account, ""), (own.editor.account, own.secret))
        for pattern in (name, other):
            editor.GetPattern(patterns.GetPatternRequest(name=pattern))
        # The operator lets the account create patterns too.
        rights = account_service_pb2_grpc.AccountServiceStub(self.server.channel(again.secret))
        mine = rights.GetMyAccount(account_service_pb2.GetMyAccountRequest())
        self.assertEqual([], list(mine.rights))
        self.server.admin("allow-patterns", mine.name)
        self.assertEqual([account_pb2.ACCOUNT_RIGHT_CREATE_PATTERNS], list(
            rights.GetMyAccount(account_service_pb2.GetMyAccountRequest()).rights))
        editor.CreatePattern(patterns.CreatePatternRequest(title="The editor's own"))

    def test_an_invitation_expires(self):
        invited = self.stub.CreateEditor(patterns.CreateEditorRequest(parent=self.pattern()))
        self.server.psql("update editor set expires_at = created_at")
        self.assertEqual(pattern_pb2.EDITOR_STATE_EXPIRED, self.stub.GetEditor(
            patterns.GetEditorRequest(name=invited.name)).state)
        nobody = pattern_service_pb2_grpc.PatternServiceStub(self.server.channel())
        self.refused(grpc.StatusCode.NOT_FOUND, nobody.AcceptEditorInvitation,
                     patterns.AcceptEditorInvitationRequest(invitation=invited.invitation,
                                                            display_name="Edda Invented"))

    def test_a_stale_etag_is_aborted(self):
        pattern = self.stub.GetPattern(patterns.GetPatternRequest(name=self.pattern()))
        def renamed(title, **mask):
            return patterns.UpdatePatternRequest(
                pattern=pattern_pb2.Pattern(name=pattern.name, title=title, etag=pattern.etag),
                **mask)
        details = live_server.details_of(self.refused(
            grpc.StatusCode.INVALID_ARGUMENT, self.stub.UpdatePattern,
            renamed("Renamed", update_mask=field_mask_pb2.FieldMask(paths=["designer"]))))
        self.assertEqual(["update_mask"], [v.field for v in
                                           details["BadRequest"].field_violations])
        self.assertEqual("Renamed", self.stub.UpdatePattern(renamed("Renamed")).title)
        self.refused(grpc.StatusCode.ABORTED, self.stub.UpdatePattern, renamed("Again"))

    def test_pages_list_every_pattern_once(self):
        made = {self.pattern() for _ in range(5)}
        seen, token = [], ""
        while True:
            page = self.stub.ListPatterns(patterns.ListPatternsRequest(
                page_size=2, page_token=token))
            seen += [p.name for p in page.patterns]
            token = page.next_page_token
            if not token:
                break
        self.assertEqual(len(seen), len(set(seen)))
        self.assertLessEqual(made, set(seen))
        self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.stub.ListPatterns,
                     patterns.ListPatternsRequest(page_token="bm9uc2Vuc2U"))

    def test_a_revoked_token_is_refused_at_once(self):
        stub = account_service_pb2_grpc.AccountServiceStub(self.server.channel(self.token))
        made = stub.CreateToken(account_service_pb2.CreateTokenRequest(label="phone"))
        phone = account_service_pb2_grpc.AccountServiceStub(self.server.channel(made.secret))
        self.assertEqual(self.account,
                         phone.GetMyAccount(account_service_pb2.GetMyAccountRequest()).name)
        stub.RevokeToken(account_service_pb2.RevokeTokenRequest(name=made.name))
        self.refused(grpc.StatusCode.UNAUTHENTICATED, phone.GetMyAccount,
                     account_service_pb2.GetMyAccountRequest())
        self.assertEqual("0", self.server.psql(
            "select count(*) from token where encode(secret_sha256, 'escape') like '%rp_%'"))

    def test_the_log_has_one_line_a_call_and_no_secrets(self):
        name = self.pattern()
        before = self.server.log_text().count("method=PatternService.GetPattern")
        self.stub.GetPattern(patterns.GetPatternRequest(name=name))
        log = self.server.log_text()
        self.assertEqual(before + 1, log.count("method=PatternService.GetPattern"))
        self.assertNotIn(self.token, log)
        self.assertNotIn("Invented tile", log)


if __name__ == "__main__":
    unittest.main()
