#include "services/rpc/field_paths.h"

#include <gtest/gtest.h>

#include "rowproof/v1/chart_service.pb.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

v1::EstimateChartRequest Request() {
  v1::EstimateChartRequest request;
  request.mutable_design()->mutable_chart()->set_row_count(2);
  request.mutable_materials()->add_yarns()->set_role(v1::YARN_ROLE_B);
  request.mutable_materials()->add_yarns()->set_role(v1::YARN_ROLE_BORDER);
  return request;
}

TEST(FieldPaths, LeadToTheFieldsOfTheRequest) {
  const v1::EstimateChartRequest request = Request();
  EXPECT_EQ(PathIn(request, "size"), "size");
  EXPECT_EQ(PathIn(request, "materials.border.round_count"), "materials.border.round_count");
  EXPECT_EQ(PathIn(request, "design.cells"), "design.chart.cells");
  EXPECT_EQ(PathIn(request, "design.row_colours[3]"), "design.chart.row_colours[3]");
  EXPECT_EQ(PathIn(request, "design.picture_colours[7]"), "design.chart.picture_colours");
  EXPECT_EQ(PathIn(request, "materials.yarns[B].ball_band.mass_g"),
            "materials.yarns[0].yarn.ball_band.mass_g");
  EXPECT_EQ(PathIn(request, "materials.yarns[border]"), "materials.yarns[1]");
  EXPECT_EQ(PathIn(request, "materials.yarns[A].weight_class"), "materials.yarns");
  v1::EstimateChartRequest of_a_file = request;
  of_a_file.mutable_design()->mutable_file()->set_content("A,B\n");
  EXPECT_EQ(PathIn(of_a_file, "design.row_colours"), "design.file.row_colours");
}

TEST(FieldPaths, NameAStitchByItsKind) {
  v1::CalibrateYarnRequest request;
  auto& swatch = *request.add_measurements()->mutable_swatch();
  swatch.add_stitches()->set_stitch(v1::STITCH_KIND_SC);
  swatch.add_stitches()->set_stitch(v1::STITCH_KIND_SL_ST);
  EXPECT_EQ(PathIn(request, "measurements[0].swatch.stitches[sl st].count"),
            "measurements[0].swatch.stitches[1].count");
  EXPECT_EQ(PathIn(request, "measurements[0].swatch.stitches[sc].count"),
            "measurements[0].swatch.stitches[0].count");
}

TEST(FieldPaths, StayAsTheyAreIfNothingInTheRequestIsMeant) {
  EXPECT_EQ(PathIn(Request(), "materials.colour"), "materials.colour");
  EXPECT_EQ(PathIn(Request(), ""), "");
  EXPECT_EQ(PathIn(Request(), "materials.yarns[9].yarn.name"), "materials.yarns[9].yarn.name");
}

TEST(FieldPaths, ResolveOrDoNot) {
  const auto& type = *v1::EstimateChartRequest::descriptor();
  for (const char* path : {"size", "design", "design.chart.cells", "materials.yarns",
                           "materials.yarns[0].yarn.ball_band.mass_g",
                           "materials.gauge_readings[99].rows", "design.chart.row_colours[3]"}) {
    EXPECT_TRUE(IsPathOf(type, path)) << path;
  }
  for (const char* path : {"", "sise", "size.name", "size[0]", "design.cells", "materials.yarns[A]",
                           "materials.yarns.yarn", "materials..gauge", "materials.yarns[0"}) {
    EXPECT_FALSE(IsPathOf(type, path)) << path;
  }
}

TEST(FieldPaths, StandInTheSentenceToo) {
  const auto status = InRequest(
      UnderField(InvalidField("yarns[B].tex", "0", "1 to 100000"), "materials"), Request());
  EXPECT_EQ(DetailOf(status).fields.at(0).field, "materials.yarns[0].yarn.tex");
  EXPECT_NE(std::string(status.message()).find("materials.yarns[0].yarn.tex"), std::string::npos);
  EXPECT_TRUE(InRequest(absl::OkStatus(), Request()).ok());
}

}  // namespace
}  // namespace rowproof::rpc
