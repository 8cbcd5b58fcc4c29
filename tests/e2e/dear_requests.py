"""For each method that computes for long, a request that is among the dearest that the limits permit.

All patterns are invented.
"""

import random
import struct
import zlib

import patterns_test

from rowproof.v1 import calibration_pb2, chart_pb2
from rowproof.v1 import chart_service_pb2 as charts
from rowproof.v1 import repair_pb2

MOST = 4000  # rows, and stitches


def picture(rows, stitches, row_of, **design):
    """A picture chart; row_of(row) gives the bytes of a row's cells."""
    return chart_pb2.Design(
        chart=chart_pb2.Chart(row_count=rows, stitch_count=stitches,
                              cells=b"".join(row_of(row) for row in range(1, rows + 1))),
        **design)


def random_cells(rows, stitches, **design):
    """Hardly a column can be worked."""
    chance = random.Random(1)
    return picture(rows, stitches, lambda row: chance.randbytes(stitches // 8), **design)


def workable(rows, stitches, **design):
    """Drops at random over every second row: no two rows are alike, no repeat is found."""
    chance = random.Random(2)
    plain, other = bytes(stitches // 8), b"\xff" * (stitches // 8)

    def row_of(row):
        if row % 2 == 1:
            return plain
        if row == rows:
            return other
        return b"\xfe" + bytes(chance.randbytes(stitches // 8 - 2)) + b"\x7f"

    return picture(rows, stitches, row_of, **design)


def plain(rows, stitches, **design):
    return picture(rows, stitches,
                   lambda row: (b"\0" if row % 2 else b"\xff") * (stitches // 8), **design)


def png(width, height, rows, level=1):
    """A grey picture of 8 bits."""

    def chunk(kind, content):
        return (struct.pack(">I", len(content)) + kind + content +
                struct.pack(">I", zlib.crc32(kind + content)))

    raw = b"".join(b"\0" + row for row in rows)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0))
            + chunk(b"IDAT", zlib.compress(raw, level)) + chunk(b"IEND", b""))


def lined_picture(cells):
    """So many cells across and up, 7 x 7 pixels each between black lines, their colours at random."""
    chance = random.Random(3)
    shades = [b"\0" + bytes([value]) * 7 for value in (120, 255)]
    line = bytes(8 * cells + 1)
    rows = [line]
    for _ in range(cells):
        row = b"".join(shades[chance.getrandbits(1)] for _ in range(cells)) + b"\0"
        rows += [row] * 7 + [line]
    return png(len(line), len(line), rows)


def long_text(rows, groups):
    row = "[ssc, sc 2] twice, sc 1, " * groups
    return "Terms: US\n" + "".join(
        "Row %d: %ssc 3. (%d sts)\n" % (number, row, 7 * groups + 3)
        for number in range(1, rows + 1))


def wide_picture(side):
    """A picture of so many pixels a side, of one colour but for a cell: 62 kB for 8,000."""
    light, dark = b"\xff" * side, b"\0" * 64 + b"\xff" * (side - 64)
    return png(side, side, [dark if 64 <= row < 128 else light for row in range(side)], 9)


def materials():
    return patterns_test.materials()


def requests(most):
    """{what: (method of ChartService, request)} for charts of at most so many rows and stitches."""
    side = most // 32 * 16  # of charts whose cells cost more than a bit
    mended = repair_pb2.RepairOptions
    whole = workable(most, most)
    found = random_cells(most, most)
    colours = chart_pb2.Design(chart=chart_pb2.Chart(
        row_count=most, stitch_count=most, row_colours=[1, 2, 3, 4] * (most // 4),
        picture_colours=bytes([1, 2, 3, 4]) * (most * most // 4)))
    cells = most // 4 - 1
    lines = chart_pb2.ChartFile(content=lined_picture(cells))
    measured = calibration_pb2.YarnMeasurement(piece=calibration_pb2.PieceMeasurement(
        design=chart_pb2.Design(file=lines), materials=materials(), length_mm=31 * cells**2))
    wide = calibration_pb2.YarnMeasurement(piece=calibration_pb2.PieceMeasurement(
        design=chart_pb2.Design(file=chart_pb2.ChartFile(content=wide_picture(8000 * most // MOST))),
        materials=materials(), length_mm=100_000))
    everything = repair_pb2.CellArea(first_row=1, last_row=most, first_stitch=1, last_stitch=most)
    text = long_text(most, most // 100)
    return {
        "check": ("CheckChart", charts.CheckChartRequest(design=found)),
        "check of colours": ("CheckChart", charts.CheckChartRequest(design=colours)),
        "repair": ("RepairChart", charts.RepairChartRequest(design=found)),
        "repair of colours": ("RepairChart", charts.RepairChartRequest(design=colours)),
        "repair with symmetry": ("RepairChart", charts.RepairChartRequest(
            design=found, options=mended(symmetries=[repair_pb2.SYMMETRY_LEFT_RIGHT]))),
        "repair with a limit on runs": ("RepairChart", charts.RepairChartRequest(
            design=found, options=mended(longest_run=3))),
        "repair around locks": ("RepairChart", charts.RepairChartRequest(
            design=plain(most, most), options=mended(locked_areas=[everything] * 1000))),
        "conversion": ("ConvertChart", charts.ConvertChartRequest(
            design=colours, convention=chart_pb2.CONVENTION_WORKING)),
        "repeats": ("FindRepeats", charts.FindRepeatsRequest(
            design=plain(most, most), max_answer_count=100)),
        "import": ("ImportChart", charts.ImportChartRequest(file=lines)),
        "export": ("ExportChart", charts.ExportChartRequest(
            design=workable(side, side), format=1, cell_scale=4)),
        "rows": ("WriteRows", charts.WriteRowsRequest(design=whole)),
        "reading": ("ReadRows", charts.ReadRowsRequest(text=text)),
        "comparison": ("CompareRows", charts.CompareRowsRequest(
            design=workable(most, (7 * (most // 100) + 8) // 8 * 8), text=text)),
        "estimate": ("EstimateChart", charts.EstimateChartRequest(
            design=whole, materials=materials())),
        "ends": ("CompareEnds", charts.CompareEndsRequest(design=whole, materials=materials())),
        "calibration by pictures": ("CalibrateYarn", charts.CalibrateYarnRequest(
            name="invented", measurements=[measured] * 2)),
        "calibration by wide pictures": ("CalibrateYarn", charts.CalibrateYarnRequest(
            name="invented", measurements=[wide] * 200)),
        "drawing of an estimate": ("DrawEstimate", charts.DrawEstimateRequest(
            design=whole, materials=materials())),
        "PNG of a chart": ("DrawChart", charts.DrawChartRequest(
            design=workable(1504 * most // MOST // 16 * 16, 1504 * most // MOST // 16 * 16),
            format=charts.DRAWING_FORMAT_PNG)),
        "PDF of a chart": ("DrawChart", charts.DrawChartRequest(
            design=workable(480, 480), format=charts.DRAWING_FORMAT_PDF)),
        "SVG of a face": ("DrawChart", charts.DrawChartRequest(
            design=workable(240, 240), format=charts.DRAWING_FORMAT_SVG,
            kind=charts.DRAWING_KIND_FACE_ONE)),
        "PNG of a face": ("DrawChart", charts.DrawChartRequest(
            design=workable(480, 480), format=charts.DRAWING_FORMAT_PNG,
            kind=charts.DRAWING_KIND_FACE_TWO)),
    }
