// ChartService's files and drawings, as any client asks for them, inside this process.
#include <string>

#include "tests/rpc/chart_service_fixture.h"

namespace rowproof::rpc {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST_F(ChartServiceTest, ImportsWhatItExportsInEveryFormat) {
  for (int format = v1::CHART_FILE_FORMAT_PNG; format <= v1::CHART_FILE_FORMAT_TSV; ++format) {
    v1::ExportChartRequest request;
    *request.mutable_design() = Picture(kMotif);
    request.set_format(static_cast<v1::ChartFileFormat>(format));
    const auto file = Ask(&Stub::ExportChart, request);
    v1::ImportChartRequest back;
    back.mutable_file()->set_content(file.content());
    const auto imported = Ask(&Stub::ImportChart, back);
    EXPECT_EQ(imported.chart().cells(), request.design().chart().cells()) << format;
    EXPECT_EQ(imported.chart().row_count(), 5) << format;
    EXPECT_EQ(imported.report().width_px(), 5) << format;
    EXPECT_EQ(imported.report().format(), format);
    EXPECT_FALSE(imported.report().sentences().empty()) << format;
  }
  v1::ExportChartRequest named;
  *named.mutable_design()->mutable_chart() = NamedChart({"CCCC", "BCBB", "AAAA"}, "ABC");
  named.set_cell_scale(3);
  for (const char* rgb : {"#f2e6cf", "#1e3a5f", "#a03020"}) named.add_colours(rgb);
  v1::ImportChartRequest back;
  back.mutable_file()->set_content(Ask(&Stub::ExportChart, named).content());
  *back.mutable_file()->mutable_row_colours() = named.design().chart().row_colours();
  const auto imported = Ask(&Stub::ImportChart, back);
  EXPECT_EQ(imported.chart().picture_colours(), named.design().chart().picture_colours());
  EXPECT_EQ(imported.report().cell_scale(), 3);
  EXPECT_EQ(imported.report().colours_size(), 3);
}

TEST_F(ChartServiceTest, ReportsWhatWasCutAway) {
  v1::ImportChartRequest request;
  // Row numbers at the left, stitch numbers below, as a table program writes them.
  request.mutable_file()->set_content("3,A,B,A\n2,B,B,B\n1,A,A,A\n,3,2,1\n");
  const auto imported = Ask(&Stub::ImportChart, request);
  EXPECT_EQ(imported.chart().row_count(), 3);
  EXPECT_EQ(imported.chart().stitch_count(), 3);
  EXPECT_EQ(imported.report().cut().left(), 1);
  EXPECT_EQ(imported.report().cut().bottom(), 1);
  EXPECT_THAT(imported.report().marked_sides(),
              ElementsAre(v1::PICTURE_SIDE_LEFT, v1::PICTURE_SIDE_BOTTOM));
}

TEST_F(ChartServiceTest, RefusesFilesAndFormatsByTheirField) {
  v1::ImportChartRequest import;
  auto& file = *import.mutable_file();
  file.set_content("A,B\nB,A\n");
  file.set_cell_scale(-2);
  ExpectWrongField(&Stub::ImportChart, import, "file.cell_scale", "\"-2\"", "1 to 1000");
  file.clear_cell_scale();
  file.mutable_grid()->set_pitch_x_px(0);
  ExpectWrongField(&Stub::ImportChart, import, "file.grid.pitch_x_px", "\"0\"", "more than 0");
  file.clear_grid();
  file.add_colours()->set_rgb("teal");
  ExpectWrongField(&Stub::ImportChart, import, "file.colours[0].rgb", "\"teal\"", "#1e3a5f");
  file.mutable_colours(0)->set_rgb("#008080");
  ExpectWrongField(&Stub::ImportChart, import, "file.colours[0].chart_colour", "unspecified",
                   "A to H");

  v1::ExportChartRequest request;
  *request.mutable_design() = Picture(kMotif);
  request.set_cell_scale(1001);
  ExpectWrongField(&Stub::ExportChart, request, "cell_scale", "\"1001\"", "1 to 1000");
  request.clear_cell_scale();
  request.add_colours("white");
  ExpectWrongField(&Stub::ExportChart, request, "colours[0]", "\"white\"", "#1e3a5f");
  request.clear_colours();
  request.set_format(static_cast<v1::ChartFileFormat>(12));
  ExpectWrongField(&Stub::ExportChart, request, "format", "\"12\"", "PNG");
  *request.mutable_design()->mutable_chart() = NamedChart({"CCCC", "BCBB", "AAAA"}, "ABC");
  request.set_format(v1::CHART_FILE_FORMAT_RAW_PBM);
  EXPECT_EQ(Refusal(&Stub::ExportChart, request).error_code(), grpc::INVALID_ARGUMENT);
}

TEST_F(ChartServiceTest, DrawsBothChartsAndBothFacesInEveryFormat) {
  for (int kind = v1::DRAWING_KIND_UNSPECIFIED; kind <= v1::DRAWING_KIND_FACE_TWO; ++kind) {
    v1::DrawChartRequest request;
    *request.mutable_design() = Picture(kMotif);
    request.mutable_design()->add_sizes()->set_name("M");
    request.set_kind(static_cast<v1::DrawingKind>(kind));
    request.set_title("Reed Mat (invented)");
    request.set_size("M");
    request.add_colours("#f2e6cf");
    request.add_colour_names("Oat");
    request.mutable_gauge()->set_stitches_per_decimetre(15);
    request.mutable_gauge()->set_rows_per_decimetre(17);
    request.set_format(v1::DRAWING_FORMAT_PNG);
    EXPECT_EQ(Ask(&Stub::DrawChart, request).content().substr(1, 3), "PNG") << kind;
    request.set_format(v1::DRAWING_FORMAT_SVG);
    EXPECT_THAT(Ask(&Stub::DrawChart, request).content(), HasSubstr("<svg")) << kind;
    request.set_format(v1::DRAWING_FORMAT_PDF);
    request.set_paper(v1::PAPER_LETTER);
    EXPECT_EQ(Ask(&Stub::DrawChart, request).content().substr(0, 5), "%PDF-") << kind;
  }
}

TEST_F(ChartServiceTest, RefusesDrawingsByTheirField) {
  v1::DrawChartRequest request;
  *request.mutable_design() = Picture(kMotif);
  request.set_cell_size_px(3);
  ExpectWrongField(&Stub::DrawChart, request, "cell_size_px", "\"3\"", "4 to 64");
  request.clear_cell_size_px();
  request.set_size("XL");
  ExpectWrongField(&Stub::DrawChart, request, "size", "\"XL\"", "the design's sizes");
  request.clear_size();
  request.set_kind(static_cast<v1::DrawingKind>(5));
  ExpectWrongField(&Stub::DrawChart, request, "kind", "\"5\"", "face 1");
  request.clear_kind();
  request.set_wrong_side_share(1.5);
  request.set_kind(v1::DRAWING_KIND_FACE_ONE);
  ExpectWrongField(&Stub::DrawChart, request, "wrong_side_share", "1.5", "0.1");
  request.clear_wrong_side_share();
  request.add_colours("1e3a5f");
  ExpectWrongField(&Stub::DrawChart, request, "colours[0]", "\"1e3a5f\"", "#1e3a5f");
}

}  // namespace
}  // namespace rowproof::rpc
