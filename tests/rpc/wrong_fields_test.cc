// Many wrong requests to every method of ChartService: each is refused, and each field that the
// refusal names is a field of that request.
#include <google/protobuf/descriptor.h>

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "services/rpc/field_paths.h"
#include "tests/rpc/chart_service_fixture.h"
#include "tests/rpc/wrong_requests.h"

namespace rowproof::rpc {
namespace {

class WrongFields : public ChartServiceTest {
 protected:
  // What a wrong request is refused for; empty if it is not refused for a field.
  template <typename Request, typename Answer>
  std::vector<std::string> FieldsOf(Method<Request, Answer> method, const Request& request) {
    const grpc::Status status = Refusal(method, request);
    EXPECT_EQ(status.error_code(), grpc::INVALID_ARGUMENT)
        << status.error_message() << request.ShortDebugString().substr(0, 500);
    google::rpc::Status sent;
    EXPECT_TRUE(sent.ParseFromString(status.error_details()));
    google::rpc::BadRequest bad;
    for (const auto& detail : sent.details()) detail.UnpackTo(&bad);
    std::vector<std::string> fields;
    for (const auto& violation : bad.field_violations()) fields.push_back(violation.field());
    return fields;
  }

  template <typename Request>
  using Change = std::function<void(Request&)>;

  // Each change makes the good request wrong by itself. Returns all fields that were named.
  template <typename Request, typename Answer>
  std::set<std::string> ExpectFields(Method<Request, Answer> method, const Request& good,
                                     const std::vector<Change<Request>>& changes) {
    std::set<std::string> named;
    Ask(method, good);
    for (size_t i = 0; i < changes.size(); ++i) {
      Request wrong = good;
      changes[i](wrong);
      const auto fields = FieldsOf(method, wrong);
      EXPECT_FALSE(fields.empty()) << Request::descriptor()->name() << " " << i;
      for (const std::string& field : fields) {
        EXPECT_TRUE(IsPathOf(*Request::descriptor(), field))
            << Request::descriptor()->name() << " " << i << ": " << field;
        named.insert(field);
      }
    }
    return named;
  }
};

template <typename Request, typename Part>
std::vector<std::function<void(Request&)>> Below(
    const std::vector<std::function<void(Part&)>>& changes, Part* (Request::*mutable_part)()) {
  std::vector<std::function<void(Request&)>> whole;
  for (const auto& change : changes) {
    whole.push_back([=](Request& request) { change(*(request.*mutable_part)()); });
  }
  return whole;
}

TEST_F(WrongFields, OfADesignExist) {
  v1::CheckChartRequest good;
  *good.mutable_design() = Picture(kMotif);
  auto changes = Below(WrongDesigns(), &v1::CheckChartRequest::mutable_design);
  changes.push_back([](auto& r) { r.mutable_settings()->set_longest_flap(-1); });
  changes.push_back([](auto& r) { r.mutable_settings()->set_longest_carried_run(-1); });
  const auto named = ExpectFields(&Stub::CheckChart, good, changes);
  for (const char* field :
       {"design.chart", "design.chart.row_colours", "design.sizes[0].stitch_repeat_count",
        "design.file.content", "design.stitch_band.last", "settings.longest_flap"}) {
    EXPECT_EQ(named.count(field), 1u) << field << " of " << testing::PrintToString(named);
  }
}

TEST_F(WrongFields, OfAMaterialsExist) {
  v1::EstimateChartRequest good;
  *good.mutable_design() = Picture(kMotif);
  *good.mutable_materials() = GoodMaterials();
  auto changes = Below(WrongMaterials(), &v1::EstimateChartRequest::mutable_materials);
  changes.push_back([](auto& r) { r.set_size("XXL"); });
  const auto named = ExpectFields(&Stub::EstimateChart, good, changes);
  for (const char* field :
       {"materials.yarns", "materials.yarns[1].role", "materials.yarns[0].yarn.name",
        "materials.yarns[2].yarn.wraps_per_inch", "materials.yarns[1].yarn.ball_band.mass_g",
        "materials.gauge.rows_per_decimetre", "materials.yarn_calibration.paths[0].up", "size"}) {
    EXPECT_EQ(named.count(field), 1u) << field << " of " << testing::PrintToString(named);
  }
}

TEST_F(WrongFields, OfAFileExist) {
  v1::ImportChartRequest good;
  good.mutable_file()->set_content("P1 2 2\n0 1\n1 0\n");
  good.mutable_file()->set_colour_a("#ffffff");
  good.mutable_file()->set_colour_b("#000000");
  ExpectFields(&Stub::ImportChart, good,
               Below(WrongFiles(), &v1::ImportChartRequest::mutable_file));
}

TEST_F(WrongFields, OfAnyQuestionAboutAnEstimateExist) {
  v1::CompareEndsRequest ends;
  *ends.mutable_design() = Picture(kMotif);
  *ends.mutable_materials() = GoodMaterials();
  auto changes = Below(WrongDesigns(), &v1::CompareEndsRequest::mutable_design);
  changes.push_back([](auto& r) { r.set_minutes_per_end(kNan); });
  changes.push_back(
      [](auto& r) { r.mutable_materials()->mutable_yarns(0)->mutable_yarn()->Clear(); });
  ExpectFields(&Stub::CompareEnds, ends, changes);

  v1::ChooseSizeRequest size;
  *size.mutable_design() = Picture(kMotif);
  *size.mutable_materials() = GoodMaterials();
  size.set_width_mm(300);
  ExpectFields<v1::ChooseSizeRequest, v1::SizeChoice>(
      &Stub::ChooseSize, size,
      {[](auto& r) { r.clear_width_mm(); }, [](auto& r) { r.set_height_mm(kNan); },
       [](auto& r) { r.set_after_blocking(true); },
       [](auto& r) { r.mutable_materials()->clear_yarns(); },
       [](auto& r) { r.mutable_materials()->mutable_swatch()->set_row_count(9); }});

  v1::DrawEstimateRequest drawing;
  *drawing.mutable_design() = Picture(kMotif);
  *drawing.mutable_materials() = GoodMaterials();
  ExpectFields<v1::DrawEstimateRequest, v1::DrawEstimateResponse>(
      &Stub::DrawEstimate, drawing,
      {[](auto& r) { r.set_format(v1::DRAWING_FORMAT_PDF); },
       [](auto& r) { r.set_format(static_cast<v1::DrawingFormat>(7)); },
       [](auto& r) { r.set_size("none"); }, [](auto& r) { r.clear_design(); },
       [](auto& r) { r.mutable_materials()->clear_gauge(); }});
}

TEST_F(WrongFields, OfAMeasurementExist) {
  const auto named = ExpectFields(&Stub::CalibrateYarn, GoodCalibration(), WrongCalibrations());
  for (const char* field :
       {"measurements[0].swatch.stitches[1].count", "measurements[0].swatch.tail_length_mm",
        "measurements[1].piece.materials.yarns[2].yarn.wraps_per_inch",
        "measurements[1].piece.role"}) {
    EXPECT_EQ(named.count(field), 1u) << field << " of " << testing::PrintToString(named);
  }
}

TEST_F(WrongFields, OfARepairAConversionAndRepeatsExist) {
  v1::RepairChartRequest repair;
  *repair.mutable_design() = Picture(kMotif);
  ExpectFields<v1::RepairChartRequest, v1::RepairResult>(
      &Stub::RepairChart, repair,
      {[](auto& r) { r.mutable_options()->set_longest_run(-1); },
       [](auto& r) { r.mutable_options()->add_symmetries(v1::SYMMETRY_UNSPECIFIED); },
       [](auto& r) { r.mutable_options()->add_locked_areas()->set_last_row(3); },
       [](auto& r) { r.mutable_options()->add_locked_areas()->set_first_stitch(9); }});

  v1::ConvertChartRequest conversion;
  *conversion.mutable_design() = Picture(kMotif);
  conversion.set_technique(v1::TECHNIQUE_OVERLAY);
  *conversion.mutable_materials() = GoodMaterials();
  auto changes = Below(WrongMaterials(), &v1::ConvertChartRequest::mutable_materials);
  for (const auto& change : WrongMaterials()) {
    changes.push_back([change](v1::ConvertChartRequest& r) {
      *r.mutable_materials_after() = GoodMaterials();
      change(*r.mutable_materials_after());
    });
  }
  changes.push_back([](auto& r) { r.set_technique(static_cast<v1::Technique>(8)); });
  changes.push_back([](auto& r) { r.set_convention(static_cast<v1::Convention>(8)); });
  changes.push_back([](auto& r) { r.set_facing(v1::FACING_PAIRED); });
  changes.push_back([](auto& r) { r.set_ends(v1::ENDS_CARRIED); });
  changes.push_back([](auto& r) { r.set_terms(static_cast<v1::Terms>(8)); });
  changes.push_back([](auto& r) {
    *r.mutable_materials_after() = GoodMaterials();
    r.clear_materials();
  });
  ExpectFields(&Stub::ConvertChart, conversion, changes);

  v1::FindRepeatsRequest repeats;
  *repeats.mutable_design() = Picture(kMotif);
  ExpectFields<v1::FindRepeatsRequest, v1::Repeats>(
      &Stub::FindRepeats, repeats,
      {[](auto& r) { r.set_max_answer_count(-1); },
       [](auto& r) {
         r.mutable_design()->mutable_stitch_band()->set_first(2);
         r.mutable_design()->mutable_stitch_band()->set_last(3);
       },
       [](auto& r) {
         r.mutable_design()->add_sizes()->set_name("S");
         r.mutable_design()->add_sizes()->set_name("M");
       }});
}

TEST_F(WrongFields, OfRowsAndTextsExist) {
  v1::WriteRowsRequest rows;
  *rows.mutable_design() = Picture(kMotif);
  ExpectFields<v1::WriteRowsRequest, v1::WrittenRows>(
      &Stub::WriteRows, rows,
      {[](auto& r) { r.mutable_settings()->set_hand(static_cast<v1::Hand>(5)); },
       [](auto& r) { r.mutable_settings()->set_terms(static_cast<v1::Terms>(5)); },
       [](auto& r) { r.mutable_settings()->set_repeat_style(static_cast<v1::RepeatStyle>(5)); },
       [](auto& r) { r.mutable_settings()->set_nesting_depth(7); },
       [](auto& r) { r.mutable_settings()->add_colour_names("one only"); },
       [](auto& r) {
         r.mutable_settings()->add_colour_names("a\tb");
         r.mutable_settings()->add_colour_names("Ink");
       }});

  v1::ReadRowsRequest text;
  text.set_text("Row 1 (RS, A): sc 4.\n");
  ExpectFields<v1::ReadRowsRequest, v1::TextRows>(
      &Stub::ReadRows, text,
      {[](auto& r) { r.set_text("\x01"); }, [](auto& r) { r.set_terms(static_cast<v1::Terms>(5)); },
       [](auto& r) { r.add_sizes(std::string(90, 's')); },
       [](auto& r) { r.add_colour_names()->set_name("Ink"); },
       [](auto& r) { r.add_colour_names()->set_colour(v1::COLOUR_A); },
       [](auto& r) { r.add_definitions()->set_name("ls"); },
       [](auto& r) {
         r.add_definitions()->set_name("7");
         r.mutable_definitions(0)->set_meaning(v1::STITCH_MEANING_DROP);
       }});

  v1::CompareRowsRequest comparison;
  *comparison.mutable_design() = Picture(kMotif);
  comparison.set_text(text.text());
  auto changes = Below(WrongDesigns(), &v1::CompareRowsRequest::mutable_design);
  changes.push_back([](auto& r) { r.set_hand(static_cast<v1::Hand>(5)); });
  changes.push_back([](auto& r) { r.set_text("\x02"); });
  ExpectFields(&Stub::CompareRows, comparison, changes);
}

TEST_F(WrongFields, OfDrawingsAndExportsExist) {
  v1::DrawChartRequest drawing;
  *drawing.mutable_design() = Picture(kMotif);
  ExpectFields<v1::DrawChartRequest, v1::DrawChartResponse>(
      &Stub::DrawChart, drawing,
      {[](auto& r) { r.set_format(static_cast<v1::DrawingFormat>(7)); },
       [](auto& r) { r.set_kind(static_cast<v1::DrawingKind>(7)); },
       [](auto& r) { r.set_cell_size_px(1); }, [](auto& r) { r.set_cell_size_mm(kNan); },
       [](auto& r) { r.set_paper(static_cast<v1::Paper>(7)); },
       [](auto& r) { r.set_title(std::string(2000, 't')); },
       [](auto& r) { r.set_hand(static_cast<v1::Hand>(7)); }, [](auto& r) { r.set_size("none"); },
       [](auto& r) { r.add_colours("red"); },
       [](auto& r) {
         for (int i = 0; i < 9; ++i) r.add_colour_names("x");
       },
       [](auto& r) { r.add_colour_names(std::string(2000, 'n')); },
       [](auto& r) { r.mutable_gauge()->set_stitches_per_decimetre(kNan); },
       [](auto& r) { r.set_wrong_side_share(7); }});

  v1::ExportChartRequest file;
  *file.mutable_design() = Picture(kMotif);
  ExpectFields<v1::ExportChartRequest, v1::ExportChartResponse>(
      &Stub::ExportChart, file,
      {[](auto& r) { r.set_format(static_cast<v1::ChartFileFormat>(20)); },
       [](auto& r) { r.set_cell_scale(-1); }, [](auto& r) { r.add_colours("red"); },
       [](auto& r) { r.add_colours("#000000"); },
       [](auto& r) {
         r.add_colours("#000000");
         r.add_colours("#000000");
       }});
}

}  // namespace
}  // namespace rowproof::rpc
