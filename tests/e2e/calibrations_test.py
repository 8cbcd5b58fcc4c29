"""Kept calibrations against a live server: by RPC, as their owner and as others.

All people, yarns and measurements are invented.
"""

import json
import unittest

import live_server
import patterns_test

import grpc
from rowproof.v1 import account_service_pb2, account_service_pb2_grpc
from rowproof.v1 import calibration_pb2, chart_pb2, estimate_pb2, materials_pb2, yarn_calibration_pb2, yarn_pb2
from rowproof.v1 import calibration_service_pb2 as calibrations
from rowproof.v1 import calibration_service_pb2_grpc
from rowproof.v1 import chart_service_pb2, chart_service_pb2_grpc
from rowproof.v1 import pattern_service_pb2 as patterns
from rowproof.v1 import pattern_service_pb2_grpc
from rowproof.v1 import yarn_pb2

ASSUMED_MM = 400 * (3 * 5 + 2 * 4 + 2 * 3.141592653589793 * 2)  # 400 sc at w = 5, h = 4, d = 2 mm


def scope(**more):
    said = dict(technique=chart_pb2.TECHNIQUE_SPIKE, facing=chart_pb2.FACING_TWO_FACE,
                ends=chart_pb2.ENDS_CUT, weight_class=4)
    said.update(more)
    return yarn_calibration_pb2.CalibrationScope(**said)


def update(name, paths=("title",), **new):
    request = calibrations.UpdateCalibrationRequest(
        calibration=calibration_pb2.Calibration(name=name, **new))
    request.update_mask.paths.extend(paths)
    return request


def swatch(factor=1.1, note=""):
    """A swatch of 400 sc that took `factor` times the assumed yarn."""
    measured = calibration_pb2.SwatchMeasurement(
        stitches=[calibration_pb2.StitchCount(
            stitch=yarn_calibration_pb2.STITCH_KIND_SC, count=400)],
        gauge=materials_pb2.Gauge(stitches_per_decimetre=20, rows_per_decimetre=25),
        yarn=yarn_pb2.Yarn(wraps_per_inch=12.7), length_mm=factor * ASSUMED_MM)
    return calibration_pb2.YarnMeasurement(swatch=measured, note=note)


class Caller:
    def __init__(self, server, token=None):
        channel = server.channel(token)
        self.calibrations = calibration_service_pb2_grpc.CalibrationServiceStub(channel)
        self.patterns = pattern_service_pb2_grpc.PatternServiceStub(channel)
        self.charts = chart_service_pb2_grpc.ChartServiceStub(channel)
        self.accounts = account_service_pb2_grpc.AccountServiceStub(channel)

    def keep(self, title="Oat, my hands (invented)", **more):
        request = dict(title=title, scope=scope(), measurements=[swatch(note="first swatch")],
                       request_id=live_server.request_id())
        request.update(more)
        return self.calibrations.CreateCalibration(
            calibrations.CreateCalibrationRequest(**request))

    def revise(self, name, *measurements, **more):
        return self.calibrations.CreateCalibrationRevision(
            calibrations.CreateCalibrationRevisionRequest(
                parent=name, measurements=measurements, **more))

    def get(self, name):
        return self.calibrations.GetCalibration(calibrations.GetCalibrationRequest(name=name))

    def revision(self, name):
        return self.calibrations.GetCalibrationRevision(
            calibrations.GetCalibrationRevisionRequest(name=name))


def content(calibration="", **design):
    wanted = patterns_test.content(patterns_test.picture(20, 24, {(5, 3), (7, 3)}))
    wanted.materials.calibration = calibration
    for field, value in design.items():
        setattr(wanted.design, field, value)
    return wanted


def estimate_request(calibration="", **design):
    wanted = content(calibration, **design)
    return chart_service_pb2.EstimateChartRequest(design=wanted.design, materials=wanted.materials)


class LiveCalibrations(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.server = live_server.Server().start()
        _, cls.token = cls.server.new_designer()
        cls.designer = Caller(cls.server, cls.token)
        _, token = cls.server.new_designer("Odo Invented")
        cls.stranger = Caller(cls.server, token)
        cls.nobody = Caller(cls.server)

    @classmethod
    def tearDownClass(cls):
        assert cls.server.stop() == 0

    def refused(self, code, method, request):
        with self.assertRaises(grpc.RpcError) as caught:
            method(request)
        self.assertEqual(code, caught.exception.code(), caught.exception.details())
        return live_server.details_of(caught.exception)

    def fields(self, method, request):
        details = self.refused(grpc.StatusCode.INVALID_ARGUMENT, method, request)
        return [v.field for v in details["BadRequest"].field_violations]

    def pattern(self):
        return self.designer.patterns.CreatePattern(
            patterns.CreatePatternRequest(title="Invented tile")).name

    def submit(self, pattern, wanted, **more):
        return self.designer.patterns.CreateVersion(
            patterns.CreateVersionRequest(parent=pattern, content=wanted, **more))


class CalibrationsTest(LiveCalibrations):
    def test_a_swatch_is_kept_and_read_back(self):
        made = self.designer.keep()
        self.assertRegex(made.name, "^calibrations/[a-z0-9]+$")
        self.assertEqual(scope(), made.scope)
        newest = made.newest_revision
        self.assertEqual(made.name + "/revisions/1", newest.name)
        self.assertEqual(newest.name, newest.yarn_calibration.name)
        self.assertEqual(171, len(newest.yarn_calibration.covariance))
        kept, = newest.measurements
        self.assertEqual((1, 1, "first swatch"), (kept.number, kept.first_revision, kept.note))
        self.assertEqual(calibration_pb2.MEASUREMENT_KIND_UNRAVELLED_SWATCH, kept.kind)
        self.assertAlmostEqual(1.1 * ASSUMED_MM, kept.length_mm, 9)
        self.assertAlmostEqual(5, kept.stitch_pitch_mm, 12)
        self.assertEqual(made, self.designer.get(made.name))
        self.assertEqual(newest, self.designer.revision(newest.name))

    def test_it_says_what_the_stateless_calibration_says(self):
        made = self.designer.keep()
        stateless = self.designer.charts.CalibrateYarn(chart_service_pb2.CalibrateYarnRequest(
            name="Oat", scope=scope(), measurements=[swatch()]))
        kept = made.newest_revision.yarn_calibration
        kept.name = "Oat"
        self.assertEqual(stateless, kept)

    def test_revisions_are_added_and_never_change(self):
        made = self.designer.keep()
        first = self.designer.revision(made.name + "/revisions/1")
        second = self.designer.revise(made.name, swatch(1.2), swatch(1.18), note="two more")
        self.assertEqual([1, 2, 3], [m.number for m in second.measurements])
        self.assertEqual([1, 2, 2], [m.first_revision for m in second.measurements])
        sc = second.yarn_calibration.paths[1]
        self.assertGreater(sc.length_mm, first.yarn_calibration.paths[1].length_mm)
        self.assertLess(sc.relative_uncertainty,
                        first.yarn_calibration.paths[1].relative_uncertainty)
        third = self.designer.revise(made.name, left_out=[2, 3], note="both were wet")
        self.assertEqual([1], [m.number for m in third.measurements])
        self.assertEqual(first.yarn_calibration.paths, third.yarn_calibration.paths)
        self.assertEqual(first, self.designer.revision(first.name))
        self.assertEqual(second, self.designer.revision(second.name))
        self.assertEqual(third, self.designer.get(made.name).newest_revision)
        fourth = self.designer.revise(made.name, swatch())
        self.assertEqual([1, 4], [m.number for m in fourth.measurements])
        listed = self.designer.calibrations.ListCalibrationRevisions(
            calibrations.ListCalibrationRevisionsRequest(parent=made.name, page_size=3))
        self.assertEqual([4, 3, 2], [r.number for r in listed.revisions])
        self.assertEqual([2, 1, 3], [r.measurement_count for r in listed.revisions])
        rest = self.designer.calibrations.ListCalibrationRevisions(
            calibrations.ListCalibrationRevisionsRequest(
                parent=made.name, page_size=3, page_token=listed.next_page_token))
        self.assertEqual([1], [r.number for r in rest.revisions])

    def test_an_estimate_names_the_revision_that_it_used(self):
        made = self.designer.keep()
        plain = self.nobody.charts.EstimateChart(estimate_request())
        first = self.designer.charts.EstimateChart(estimate_request(made.name))
        self.designer.revise(made.name, swatch(1.3), swatch(1.3))
        second = self.designer.charts.EstimateChart(estimate_request(made.name))
        again = self.designer.charts.EstimateChart(
            estimate_request(made.name + "/revisions/1"))
        self.assertEqual("", plain.calibration)
        self.assertEqual(made.name + "/revisions/1", first.calibration)
        self.assertEqual(made.name + "/revisions/2", second.calibration)
        self.assertEqual(first, again)
        lengths = [estimate.yarns[0].length_mm for estimate in (plain, first, second)]
        self.assertEqual(sorted(lengths), lengths)
        spread = [estimate.yarns[0].length_uncertainty_mm / estimate.yarns[0].length_mm
                  for estimate in (plain, first)]
        self.assertLess(spread[1], spread[0])
        self.assertEqual([], [n.code for n in first.notes if n.code in (
            estimate_pb2.ESTIMATE_NOTE_CODE_CALIBRATION_OF_ANOTHER_FABRIC,
            estimate_pb2.ESTIMATE_NOTE_CODE_CALIBRATION_OF_ANOTHER_CLASS)])

    def test_every_question_about_a_chart_takes_it(self):
        made = self.designer.keep()
        wanted = content(made.name)
        asked = dict(design=wanted.design, materials=wanted.materials)
        ways = self.designer.charts.CompareEnds(chart_service_pb2.CompareEndsRequest(**asked))
        estimated = self.designer.charts.EstimateChart(
            chart_service_pb2.EstimateChartRequest(**asked))
        self.assertAlmostEqual(sum(c.length_mm for c in estimated.yarns),
                               ways.methods[0].length_mm, 6)
        self.assertTrue(self.designer.charts.ChooseSize(chart_service_pb2.ChooseSizeRequest(
            width_mm=200, **asked)).design_sizes)
        drawn = self.designer.charts.DrawEstimate(chart_service_pb2.DrawEstimateRequest(
            format=chart_service_pb2.DRAWING_FORMAT_SVG, **asked)).content
        self.assertIn(b"<svg", drawn)
        converted = self.designer.charts.ConvertChart(chart_service_pb2.ConvertChartRequest(
            technique=chart_pb2.TECHNIQUE_OVERLAY, **asked))
        self.assertEqual(made.name + "/revisions/1", converted.sizes[0].before.calibration)
        self.assertIn(estimate_pb2.ESTIMATE_NOTE_CODE_CALIBRATION_OF_ANOTHER_FABRIC,
                      [note.code for note in converted.sizes[0].after.notes])

    def test_what_it_was_not_measured_in_is_a_note(self):
        made = self.designer.keep()
        other = estimate_request(made.name, technique=chart_pb2.TECHNIQUE_OVERLAY,
                                 facing=chart_pb2.FACING_ONE_FACE)
        other.materials.yarns[1].yarn.weight_class = 5
        notes = {note.code: note.sentence
                 for note in self.designer.charts.EstimateChart(other).notes}
        self.assertIn("another fabric (spike, two-face, not overlay, one-face)",
                      notes[estimate_pb2.ESTIMATE_NOTE_CODE_CALIBRATION_OF_ANOTHER_FABRIC])
        self.assertIn("Yarn B has weight class 5",
                      notes[estimate_pb2.ESTIMATE_NOTE_CODE_CALIBRATION_OF_ANOTHER_CLASS])

    def test_a_version_keeps_what_it_used(self):
        made = self.designer.keep()
        pattern = self.pattern()
        version = self.submit(pattern, content(made.name))
        used = made.newest_revision
        self.assertEqual(used.name, version.estimates[0].calibration)
        self.assertEqual(used.name, version.content.materials.calibration)
        inside = version.content.materials.yarn_calibration
        self.assertEqual(used.yarn_calibration.covariance, inside.covariance)
        self.assertEqual(scope(), inside.scope)
        self.designer.revise(made.name, swatch(1.3))
        read = self.designer.patterns.GetVersion(patterns.GetVersionRequest(name=version.name))
        self.assertEqual(version, read)
        # What was read can be submitted again as it is.
        again = self.submit(pattern, read.content)
        self.assertEqual(version.content_hash, again.content_hash)
        newest = self.submit(pattern, content(made.name))
        self.assertEqual(made.name + "/revisions/2", newest.estimates[0].calibration)
        self.assertNotEqual(version.content_hash, newest.content_hash)
        # With the calibration gone the version still says all that it said.
        self.designer.calibrations.DeleteCalibration(
            calibrations.DeleteCalibrationRequest(name=made.name))
        self.assertEqual(version, self.designer.patterns.GetVersion(
            patterns.GetVersionRequest(name=version.name)))
        estimated = self.designer.patterns.EstimateVersion(
            patterns.EstimateVersionRequest(name=version.name)).sizes[0]
        self.assertEqual(version.estimates[0], estimated)

    def test_a_version_is_estimated_with_another_revision(self):
        made = self.designer.keep()
        version = self.submit(self.pattern(), content(made.name))
        self.designer.revise(made.name, swatch(1.3))
        request = patterns.EstimateVersionRequest(name=version.name, calibration=made.name)
        other = self.designer.patterns.EstimateVersion(request).sizes[0]
        self.assertEqual(made.name + "/revisions/2", other.calibration)
        self.assertGreater(other.yarns[0].length_mm, version.estimates[0].yarns[0].length_mm)
        request.calibration = "oat"
        self.assertEqual(["calibration"],
                         self.fields(self.designer.patterns.EstimateVersion, request))

    def test_an_editor_sees_the_record_in_the_version_only(self):
        made = self.designer.keep()
        pattern = self.pattern()
        version = self.submit(pattern, content(made.name))
        _, secret = live_server.new_editor(self.server, self.designer.patterns, pattern)
        editor = Caller(self.server, secret)
        read = editor.patterns.GetVersion(patterns.GetVersionRequest(name=version.name))
        self.assertEqual(version, read)
        self.refused(grpc.StatusCode.NOT_FOUND, editor.get, made.name)
        self.refused(grpc.StatusCode.NOT_FOUND, editor.revision, made.name + "/revisions/1")
        # The version's own calibration serves its estimates, another of the designer's does not.
        asked = patterns.EstimateVersionRequest(name=version.name, materials=read.content.materials)
        self.assertEqual(version.estimates[0], editor.patterns.EstimateVersion(asked).sizes[0])
        asked.materials.calibration = made.name
        self.refused(grpc.StatusCode.NOT_FOUND, editor.patterns.EstimateVersion, asked)
        self.refused(grpc.StatusCode.PERMISSION_DENIED,
                     editor.calibrations.CreateCalibration,
                     calibrations.CreateCalibrationRequest(
                         title="Mine", scope=scope(), measurements=[swatch()]))

    def test_to_a_stranger_it_does_not_exist(self):
        made = self.designer.keep()
        name, revision = made.name, made.name + "/revisions/1"
        stub = self.stranger.calibrations
        for method, request in (
                (stub.GetCalibration, calibrations.GetCalibrationRequest(name=name)),
                (stub.UpdateCalibration,
                 update(name, title="Mine now")),
                (stub.DeleteCalibration, calibrations.DeleteCalibrationRequest(name=name)),
                (stub.CreateCalibrationRevision, calibrations.CreateCalibrationRevisionRequest(
                    parent=name, measurements=[swatch()])),
                (stub.GetCalibrationRevision,
                 calibrations.GetCalibrationRevisionRequest(name=revision)),
                (stub.ListCalibrationRevisions,
                 calibrations.ListCalibrationRevisionsRequest(parent=name)),
                (self.stranger.charts.EstimateChart, estimate_request(name)),
                (self.stranger.charts.EstimateChart, estimate_request(revision))):
            there = self.refused(grpc.StatusCode.NOT_FOUND, method, request)
            self.assertEqual("NOT_FOUND", there["ErrorInfo"].reason)
        own = self.stranger.patterns.CreatePattern(
            patterns.CreatePatternRequest(title="Theirs (invented)")).name
        self.refused(grpc.StatusCode.NOT_FOUND, self.stranger.patterns.CreateVersion,
                     patterns.CreateVersionRequest(parent=own, content=content(name)))
        listed = stub.ListCalibrations(calibrations.ListCalibrationsRequest())
        self.assertEqual([], list(listed.calibrations))
        self.refused(grpc.StatusCode.UNAUTHENTICATED, self.nobody.get, name)
        self.refused(grpc.StatusCode.UNAUTHENTICATED, self.nobody.charts.EstimateChart,
                     estimate_request(name))
        self.assertEqual(made, self.designer.get(name))

    def test_wrong_content_names_its_field(self):
        create = self.designer.calibrations.CreateCalibration
        request = calibrations.CreateCalibrationRequest(
            title="Oat", scope=scope(), measurements=[swatch()])
        for change, field in (
                (lambda r: setattr(r, "title", ""), "title"),
                (lambda r: setattr(r, "title", "a\x00b"), "title"),
                (lambda r: setattr(r, "title", "x" * 121), "title"),
                (lambda r: r.ClearField("scope"), "scope.technique"),
                (lambda r: setattr(r.scope, "technique", 9), "scope.technique"),
                (lambda r: setattr(r.scope, "facing", -1), "scope.facing"),
                (lambda r: setattr(r.scope, "ends", 4), "scope.ends"),
                (lambda r: r.scope.ClearField("weight_class"), "scope.weight_class"),
                (lambda r: setattr(r.scope, "weight_class", 8), "scope.weight_class"),
                (lambda r: r.ClearField("measurements"), "measurements"),
                (lambda r: r.measurements.extend([swatch()] * 200), "measurements"),
                (lambda r: setattr(r, "note", "x" * 2001), "note"),
                (lambda r: setattr(r.measurements[0], "note", "a\nb"), "measurements[0].note"),
                (lambda r: r.measurements.append(swatch(2.54)), "measurements[1].swatch.length_mm"),
                (lambda r: setattr(r.measurements[0].swatch, "length_mm", float("nan")),
                 "measurements[0].swatch.length_mm"),
                (lambda r: setattr(r.measurements[0].swatch.gauge, "rows_per_decimetre",
                                   float("inf")),
                 "measurements[0].swatch.gauge.rows_per_decimetre"),
                (lambda r: setattr(r, "request_id", "one"), "request_id")):
            wrong = calibrations.CreateCalibrationRequest()
            wrong.CopyFrom(request)
            change(wrong)
            self.assertEqual([field], self.fields(create, wrong))
        name = self.designer.keep().name
        append = self.designer.calibrations.CreateCalibrationRevision
        for wanted, field in ((dict(), "measurements"), (dict(left_out=[2]), "left_out[0]"),
                              (dict(left_out=[1]), "measurements"),
                              (dict(left_out=[1] * 201), "left_out"),
                              (dict(measurements=[swatch()] * 200), "measurements"),
                              (dict(left_out=[1], etag="x"), "etag")):
            self.assertEqual([field], self.fields(
                append, calibrations.CreateCalibrationRevisionRequest(parent=name, **wanted)))
        for wrong in ("calibrations", "calibrations/A", name + "/revisions/0", "oat", "patterns/a"):
            self.assertEqual(["materials.calibration"], self.fields(
                self.designer.charts.EstimateChart, estimate_request(wrong)), wrong)
        forged = estimate_request()
        forged.materials.yarn_calibration.CopyFrom(
            self.designer.get(name).newest_revision.yarn_calibration)
        self.assertEqual(["materials.yarn_calibration.name"],
                         self.fields(self.designer.charts.EstimateChart, forged))

    def test_a_repeated_request_keeps_nothing_twice(self):
        one = live_server.request_id()
        made = self.designer.keep("Twice (invented)", request_id=one)
        self.assertEqual(made, self.designer.keep("Twice (invented)", request_id=one))
        self.refused(grpc.StatusCode.INVALID_ARGUMENT, self.designer.calibrations.CreateCalibration,
                     calibrations.CreateCalibrationRequest(
                         title="Other", scope=scope(), measurements=[swatch()], request_id=one))
        two = live_server.request_id()
        second = self.designer.revise(made.name, swatch(1.2), request_id=two)
        self.assertEqual(second, self.designer.revise(made.name, swatch(1.2), request_id=two))
        self.assertEqual(2, self.designer.get(made.name).revision_count)
        # A version that was submitted is found again although its calibration has gone.
        pattern = self.pattern()
        three = live_server.request_id()
        version = self.submit(pattern, content(made.name), request_id=three)
        gone = calibrations.DeleteCalibrationRequest(
            name=made.name, request_id=live_server.request_id())
        self.designer.calibrations.DeleteCalibration(gone)
        self.designer.calibrations.DeleteCalibration(gone)
        self.assertEqual(version, self.submit(pattern, content(made.name), request_id=three))
        self.refused(grpc.StatusCode.NOT_FOUND, self.designer.get, made.name)
        self.refused(grpc.StatusCode.NOT_FOUND, self.designer.calibrations.DeleteCalibration,
                     calibrations.DeleteCalibrationRequest(name=made.name))
        self.refused(grpc.StatusCode.NOT_FOUND, self.designer.patterns.CreateVersion,
                     patterns.CreateVersionRequest(parent=pattern, content=content(made.name),
                                                   request_id=live_server.request_id()))

    def test_only_the_title_is_changed_and_only_if_the_mask_names_it(self):
        made = self.designer.keep()
        stub = self.designer.calibrations
        for wrong, field in ((update(made.name, paths=("scope",), title="Rye"),
                              "update_mask"),
                             (update(made.name, paths=("title", "etag"), title="Rye"),
                              "update_mask"),
                             (update(made.name, paths=()), "update_mask"),
                             (update(made.name), "calibration.title"),
                             (update("mine", title="Rye"), "calibration.name"),
                             (update(made.name, title="Rye", etag="x"), "calibration.etag")):
            self.assertEqual([field], self.fields(stub.UpdateCalibration, wrong))
        self.assertEqual(made.title, self.designer.get(made.name).title)
        for title, paths in (("Rye", ()), ("Oak", ("*",)), ("Elm", ("title",))):
            self.assertEqual(title, stub.UpdateCalibration(
                update(made.name, paths=paths, title=title)).title)

    def test_a_stale_etag_is_aborted(self):
        made = self.designer.keep()
        renamed = self.designer.calibrations.UpdateCalibration(
            update(made.name, title="Rye", etag=made.etag))
        self.assertEqual("Rye", renamed.title)
        stub = self.designer.calibrations
        for method, request in (
                (stub.UpdateCalibration, update(made.name, title="Again", etag=made.etag)),
                (stub.DeleteCalibration, calibrations.DeleteCalibrationRequest(
                    name=made.name, etag=made.etag)),
                (stub.CreateCalibrationRevision, calibrations.CreateCalibrationRevisionRequest(
                    parent=made.name, measurements=[swatch()], etag=made.etag))):
            self.refused(grpc.StatusCode.ABORTED, method, request)
        self.designer.revise(made.name, swatch(), etag=renamed.etag)
        self.refused(grpc.StatusCode.ABORTED, stub.DeleteCalibration,
                     calibrations.DeleteCalibrationRequest(name=made.name, etag=renamed.etag))

    def test_pages_list_each_once_by_technique_and_class(self):
        _, token = self.server.new_designer("Pia Invented")
        caller = Caller(self.server, token)
        made = [caller.keep("No. %d" % i, scope=scope(
            technique=1 + i % 2, weight_class=3 + i % 3)).name for i in range(7)]

        def listed(**wanted):
            names, token = [], ""
            while True:
                page = caller.calibrations.ListCalibrations(calibrations.ListCalibrationsRequest(
                    page_size=2, page_token=token, **wanted))
                names += [c.name for c in page.calibrations]
                token = page.next_page_token
                if not token:
                    return names
        self.assertEqual(made[::-1], listed())
        self.assertEqual(made[::2][::-1], listed(technique=chart_pb2.TECHNIQUE_SPIKE))
        self.assertEqual([made[6], made[3], made[0]], listed(weight_class=3))
        self.assertEqual([made[6], made[0]], listed(technique=chart_pb2.TECHNIQUE_SPIKE,
                                                    weight_class=3))
        token = caller.calibrations.ListCalibrations(
            calibrations.ListCalibrationsRequest(page_size=2)).next_page_token
        self.assertEqual(["page_token"], self.fields(
            caller.calibrations.ListCalibrations, calibrations.ListCalibrationsRequest(
                page_token=token, weight_class=3)))

    def test_they_are_exported_and_erased_with_the_account(self):
        account, token = self.server.new_designer("Ute Untrue")
        caller = Caller(self.server, token)
        made = caller.keep("Rye (invented)")
        caller.revise(made.name, swatch())
        document = json.loads(caller.accounts.ExportPersonalData(
            account_service_pb2.ExportPersonalDataRequest()).document)
        self.assertEqual([{"calibration": made.name, "title": "Rye (invented)",
                           "measured_in": "spike, two-face, ends cut, weight class 4",
                           "revisions": [made.name + "/revisions/1", made.name + "/revisions/2"]}],
                         document["calibrations"])
        caller.accounts.ErasePersonalData(
            account_service_pb2.ErasePersonalDataRequest(name=account))
        identifier = made.name.split("/")[1]
        for table in ("calibration", "calibration_revision", "calibration_measurement"):
            self.assertEqual("0", self.server.psql(
                "select count(*) from %s where calibration_id = '%s'" % (table, identifier)))


if __name__ == "__main__":
    unittest.main()
