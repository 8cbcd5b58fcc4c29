#include "services/rpc/converters/charts/materials.h"

#include <algorithm>
#include <array>
#include <utility>

#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/calibration.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/yarn_role.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

constexpr estimate::YarnColour kFirstMore = estimate::YarnColour::kC;
constexpr char kDeclared[] = "a value of its enum";

template <typename Message>
absl::Status ReadEnds(const Message& from, std::optional<chart::Ends>* to) {
  if (from.ends() == v1::ENDS_UNSPECIFIED) return absl::OkStatus();
  ASSIGN_OR_RETURN(auto ends, EnumFrom("ends", from.ends(), chart::Ends::kCut, 3, kDeclared));
  *to = ends;
  return absl::OkStatus();
}

// The gauge itself or the counts that it is pooled from; absent if there is neither.
template <typename Readings>
absl::Status ReadGauge(const std::string& gauge_field, const std::string& readings_field,
                       bool has_gauge, const v1::Gauge& gauge, const Readings& readings,
                       std::optional<estimate::Gauge>* to) {
  if (readings.empty()) {
    if (has_gauge) *to = FromProto(gauge);
    return absl::OkStatus();
  }
  if (has_gauge) {
    return InvalidField(readings_field, std::to_string(readings.size()) + " readings",
                        "unset if " + gauge_field + " is given");
  }
  std::vector<estimate::GaugeReading> read;
  for (const v1::GaugeReading& reading : readings) read.push_back(FromProto(reading));
  ASSIGN_OR_RETURN(auto pooled, estimate::GaugeFromReadings(read, readings_field));
  *to = pooled;
  return absl::OkStatus();
}

absl::Status ReadGauges(const v1::Materials& from, estimate::Materials* materials) {
  std::optional<estimate::Gauge> gauge;
  RETURN_IF_ERROR(ReadGauge("gauge", "gauge_readings", from.has_gauge(), from.gauge(),
                            from.gauge_readings(), &gauge));
  materials->gauge = gauge.value_or(estimate::Gauge());
  materials->gauge_is_of_another_fabric = from.gauge_is_of_another_fabric();
  return ReadGauge("gauge_after_blocking", "gauge_readings_after_blocking",
                   from.has_gauge_after_blocking(), from.gauge_after_blocking(),
                   from.gauge_readings_after_blocking(), &materials->gauge_after_blocking);
}

// The yarns by role, each role once.
absl::StatusOr<std::vector<std::pair<estimate::YarnColour, estimate::Yarn>>> YarnsFrom(
    const google::protobuf::RepeatedPtrField<v1::ColourYarn>& from) {
  if (from.size() > static_cast<int>(estimate::kYarnColours)) {
    return InvalidField("yarns", std::to_string(from.size()) + " yarns",
                        "at most one for each role");
  }
  std::vector<std::pair<estimate::YarnColour, estimate::Yarn>> yarns;
  for (int i = 0; i < from.size(); ++i) {
    const std::string field = "yarns[" + std::to_string(i) + "]";
    ASSIGN_OR_RETURN(auto role, ColourOf(field + ".role", from[i].role()));
    const auto same = [&](const auto& read) { return read.first == role; };
    if (std::any_of(yarns.begin(), yarns.end(), same)) {
      return InvalidField(field + ".role", estimate::Name(role), "a role that is not listed yet");
    }
    yarns.emplace_back(role, FromProto(from[i].yarn()));
  }
  return yarns;
}

// A yarn that is not sent has nothing in it, and validation says so. The yarns of C to H are in
// order, without gaps.
absl::Status ReadYarns(const v1::Materials& from, estimate::Materials* materials) {
  ASSIGN_OR_RETURN(auto yarns, YarnsFrom(from.yarns()));
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    const auto found = std::find_if(yarns.begin(), yarns.end(),
                                    [colour](const auto& yarn) { return yarn.first == colour; });
    if (found == yarns.end()) continue;
    switch (colour) {
      case estimate::YarnColour::kA:
        materials->yarn_a = std::move(found->second);
        break;
      case estimate::YarnColour::kB:
        materials->yarn_b = std::move(found->second);
        break;
      case estimate::YarnColour::kBorder:
        materials->border_yarn = std::move(found->second);
        break;
      default: {
        const size_t place = static_cast<size_t>(colour) - static_cast<size_t>(kFirstMore);
        if (materials->more_yarns.size() != place) {
          const char missing = static_cast<char>('C' + materials->more_yarns.size());
          return InvalidFields({{"yarns", std::string("must have a yarn of colour ") + missing +
                                              " as well: no letter is left out"}});
        }
        materials->more_yarns.push_back(std::move(found->second));
      }
    }
  }
  return absl::OkStatus();
}

absl::Status ReadEdges(const v1::Materials& from, estimate::Materials* materials) {
  ASSIGN_OR_RETURN(auto foundation, EnumFrom("foundation", from.foundation(),
                                             estimate::FoundationKind::kChain, 2, kDeclared));
  materials->foundation.kind = foundation;
  if (from.foundation_colour() != v1::COLOUR_UNSPECIFIED) {
    ASSIGN_OR_RETURN(auto colour, ColourFromProto("foundation_colour", from.foundation_colour()));
    materials->foundation.colour = colour;
  }
  ASSIGN_OR_RETURN(auto tail_use, EnumFrom("tail_use", from.tail_use(),
                                           estimate::TailUse::kEnclosed, 2, kDeclared));
  materials->tail_use = tail_use;
  materials->fringe_length_mm = from.fringe_length_mm();
  if (from.has_tail_length_mm()) materials->tail_mm = from.tail_length_mm();
  ASSIGN_OR_RETURN(auto colour, ColourOrA("border.role", from.border().role()));
  materials->border = {from.border().round_count(), colour, from.border().enclosing_double()};
  return absl::OkStatus();
}

absl::Status ReadFringe(const v1::Materials& from, estimate::Materials* materials) {
  if (from.added_fringe_size() > static_cast<int>(estimate::kYarnColours)) {
    return InvalidField("added_fringe", std::to_string(from.added_fringe_size()) + " entries",
                        "at most one entry for each yarn");
  }
  for (int i = 0; i < from.added_fringe_size(); ++i) {
    const std::string field = "added_fringe[" + std::to_string(i) + "]";
    const v1::AddedFringe& fringe = from.added_fringe(i);
    ASSIGN_OR_RETURN(auto colour, ColourOrA(field + ".role", fringe.role()));
    ASSIGN_OR_RETURN(auto edge, EnumFrom(field + ".edge", fringe.edge(),
                                         estimate::FringeEdge::kFoundationAndTop, 2, kDeclared));
    materials->added_fringe.push_back({colour, fringe.strand_count(), fringe.length_mm(), edge});
  }
  return absl::OkStatus();
}

void ReadSettings(const v1::Materials& from, estimate::Materials* materials) {
  if (from.has_hook_mm()) materials->hook_mm = from.hook_mm();
  if (from.has_slack()) materials->slack = from.slack();
  if (from.has_swatch()) {
    materials->swatch = estimate::Swatch{from.swatch().stitch_count(), from.swatch().row_count()};
  }
  if (from.has_stitches_per_minute()) materials->stitches_per_minute = from.stitches_per_minute();
  if (from.has_minutes_per_row_start()) {
    materials->minutes_per_row_start = from.minutes_per_row_start();
  }
  if (from.has_assurance()) materials->assurance = from.assurance();
  materials->intended_user = from.for_small_child() ? estimate::IntendedUser::kSmallChild
                                                    : estimate::IntendedUser::kAnyone;
}

}  // namespace

estimate::Yarn FromProto(const v1::Yarn& yarn) {
  estimate::Yarn read;
  read.name = yarn.name();
  read.fibre = yarn.fibre();
  if (yarn.has_weight_class()) read.weight_class = yarn.weight_class();
  if (yarn.has_wraps_per_inch()) read.wraps_per_inch = yarn.wraps_per_inch();
  if (yarn.has_ball_band()) {
    read.ball_length_m = yarn.ball_band().length_m();
    read.ball_mass_g = yarn.ball_band().mass_g();
  }
  if (yarn.has_tex()) read.tex = yarn.tex();
  return read;
}

estimate::Gauge FromProto(const v1::Gauge& gauge) {
  estimate::Gauge read;
  read.stitches_per_decimetre = gauge.stitches_per_decimetre();
  read.rows_per_decimetre = gauge.rows_per_decimetre();
  if (gauge.has_stitches_uncertainty_per_decimetre()) {
    read.stitches_uncertainty_per_decimetre = gauge.stitches_uncertainty_per_decimetre();
  }
  if (gauge.has_rows_uncertainty_per_decimetre()) {
    read.rows_uncertainty_per_decimetre = gauge.rows_uncertainty_per_decimetre();
  }
  return read;
}

estimate::GaugeReading FromProto(const v1::GaugeReading& reading) {
  estimate::GaugeReading read;
  read.stitches = reading.stitches();
  read.rows = reading.rows();
  if (reading.has_stitch_span_mm()) read.stitch_span_mm = reading.stitch_span_mm();
  if (reading.has_row_span_mm()) read.row_span_mm = reading.row_span_mm();
  if (reading.has_scale_step_mm()) read.scale_step_mm = reading.scale_step_mm();
  return read;
}

absl::StatusOr<usecases::CalibrationChoice> ChoiceFrom(const std::string& name) {
  auto whole = ParseName<CalibrationName>("calibration", name);
  if (whole.ok()) return usecases::CalibrationChoice{whole->calibration, 0, name};
  auto revision = ParseName<RevisionName>("calibration", name);
  if (!revision.ok()) return revision.status();
  return usecases::CalibrationChoice{revision->calibration, revision->revision, name};
}

absl::StatusOr<usecases::SentMaterials> FromProto(const v1::Materials& from) {
  usecases::SentMaterials sent;
  estimate::Materials& materials = sent.materials;
  RETURN_IF_ERROR(ReadYarns(from, &materials));
  RETURN_IF_ERROR(ReadEnds(from, &materials.ends));
  ASSIGN_OR_RETURN(auto item,
                   EnumFrom("item", from.item(), estimate::ItemKind::kOther, 6, kDeclared));
  materials.item = item;
  if (!from.calibration().empty()) {
    ASSIGN_OR_RETURN(auto choice, ChoiceFrom(from.calibration()));
    sent.calibration = std::move(choice);
  } else if (from.has_yarn_calibration()) {
    if (auto s = UseCalibration(from.yarn_calibration(), &materials); !s.ok()) {
      return UnderField(s, "yarn_calibration");
    }
  }
  RETURN_IF_ERROR(ReadGauges(from, &materials));
  ReadSettings(from, &materials);
  sent.foundation_chain_declared = from.foundation() == v1::FOUNDATION_KIND_CHAIN;
  RETURN_IF_ERROR(ReadEdges(from, &materials));
  RETURN_IF_ERROR(ReadFringe(from, &materials));
  return sent;
}

absl::StatusOr<estimate::AnotherMaker> FromProto(const v1::AnotherMaker& from) {
  estimate::AnotherMaker maker;
  RETURN_IF_ERROR(ReadGauge("gauge", "gauge_readings", from.has_gauge(), from.gauge(),
                            from.gauge_readings(), &maker.gauge));
  if (from.has_gauge_after_blocking()) {
    maker.gauge_after_blocking = FromProto(from.gauge_after_blocking());
  }
  maker.gauge_is_of_another_fabric = from.gauge_is_of_another_fabric();
  ASSIGN_OR_RETURN(auto yarns, YarnsFrom(from.yarns()));
  maker.yarns = std::move(yarns);
  if (from.has_hook_mm()) maker.hook_mm = from.hook_mm();
  RETURN_IF_ERROR(ReadEnds(from, &maker.ends));
  if (from.has_tail_length_mm()) maker.tail_mm = from.tail_length_mm();
  if (from.has_stitches_per_minute()) maker.stitches_per_minute = from.stitches_per_minute();
  if (from.has_minutes_per_row_start()) maker.minutes_per_row_start = from.minutes_per_row_start();
  if (from.has_assurance()) maker.assurance = from.assurance();
  return maker;
}

v1::Yarn ToProto(const estimate::Yarn& yarn) {
  v1::Yarn to;
  to.set_name(yarn.name);
  to.set_fibre(yarn.fibre);
  if (yarn.weight_class.has_value()) to.set_weight_class(*yarn.weight_class);
  if (yarn.wraps_per_inch.has_value()) to.set_wraps_per_inch(*yarn.wraps_per_inch);
  if (yarn.ball_length_m.has_value() && yarn.ball_mass_g.has_value()) {
    to.mutable_ball_band()->set_length_m(*yarn.ball_length_m);
    to.mutable_ball_band()->set_mass_g(*yarn.ball_mass_g);
  }
  if (yarn.tex.has_value()) to.set_tex(*yarn.tex);
  return to;
}

v1::Gauge ToProto(const estimate::Gauge& gauge) {
  v1::Gauge to;
  to.set_stitches_per_decimetre(gauge.stitches_per_decimetre);
  to.set_rows_per_decimetre(gauge.rows_per_decimetre);
  if (gauge.stitches_uncertainty_per_decimetre.has_value()) {
    to.set_stitches_uncertainty_per_decimetre(*gauge.stitches_uncertainty_per_decimetre);
  }
  if (gauge.rows_uncertainty_per_decimetre.has_value()) {
    to.set_rows_uncertainty_per_decimetre(*gauge.rows_uncertainty_per_decimetre);
  }
  return to;
}

v1::Materials ToProto(const estimate::Materials& materials) {
  v1::Materials to;
  for (const estimate::YarnColour colour : estimate::kYarnColoursAsListed) {
    const estimate::Yarn* yarn = estimate::FindYarn(materials, colour);
    if (yarn == nullptr) continue;
    v1::ColourYarn* added = to.add_yarns();
    added->set_role(RoleOf(colour));
    *added->mutable_yarn() = ToProto(*yarn);
  }
  if (IsOfKept(materials.calibration)) to.set_calibration(materials.calibration);
  if (materials.assumptions.path_covariance.has_value()) {
    *to.mutable_yarn_calibration() = CalibrationOf(materials);
  }
  if (materials.hook_mm.has_value()) to.set_hook_mm(*materials.hook_mm);
  *to.mutable_gauge() = ToProto(materials.gauge);
  if (materials.gauge_after_blocking.has_value()) {
    *to.mutable_gauge_after_blocking() = ToProto(*materials.gauge_after_blocking);
  }
  to.set_gauge_is_of_another_fabric(materials.gauge_is_of_another_fabric);
  if (materials.ends.has_value()) {
    to.set_ends(static_cast<v1::Ends>(static_cast<int>(*materials.ends) + 1));
  }
  to.set_foundation(
      static_cast<v1::FoundationKind>(static_cast<int>(materials.foundation.kind) + 1));
  if (materials.foundation.colour.has_value()) {
    to.set_foundation_colour(ToProto(*materials.foundation.colour));
  }
  to.set_tail_use(static_cast<v1::TailUse>(static_cast<int>(materials.tail_use) + 1));
  to.set_fringe_length_mm(materials.fringe_length_mm);
  if (materials.tail_mm.has_value()) to.set_tail_length_mm(*materials.tail_mm);
  to.set_slack(materials.slack);
  if (materials.border.rounds > 0) {
    to.mutable_border()->set_round_count(materials.border.rounds);
    to.mutable_border()->set_role(RoleOf(materials.border.colour));
    to.mutable_border()->set_enclosing_double(materials.border.enclosing_double);
  }
  for (const auto& fringe : materials.added_fringe) {
    auto* added = to.add_added_fringe();
    added->set_role(RoleOf(fringe.colour));
    added->set_strand_count(fringe.strands);
    added->set_length_mm(fringe.length_mm);
    added->set_edge(static_cast<v1::FringeEdge>(static_cast<int>(fringe.edge) + 1));
  }
  if (materials.swatch.has_value()) {
    to.mutable_swatch()->set_stitch_count(materials.swatch->stitches);
    to.mutable_swatch()->set_row_count(materials.swatch->rows);
  }
  if (materials.stitches_per_minute.has_value()) {
    to.set_stitches_per_minute(*materials.stitches_per_minute);
  }
  if (materials.minutes_per_row_start.has_value()) {
    to.set_minutes_per_row_start(*materials.minutes_per_row_start);
  }
  to.set_assurance(materials.assurance);
  to.set_item(static_cast<v1::ItemKind>(static_cast<int>(materials.item) + 1));
  to.set_for_small_child(materials.intended_user == estimate::IntendedUser::kSmallChild);
  return to;
}

}  // namespace rowproof::rpc
