#include "services/client/failure.h"

#include <iterator>
#include <optional>
#include <utility>

#include "fmt/format.h"
#include "google/rpc/error_details.pb.h"
#include "google/rpc/status.pb.h"
#include "services/text/wrapping.h"

namespace rowproof::client {
namespace {

google::rpc::Status DetailsOf(const grpc::Status& status) {
  google::rpc::Status details;
  if (!details.ParseFromString(status.error_details())) details.Clear();
  return details;
}

bool MayBeTriedAgain(const grpc::Status& status) {
  const google::rpc::Status details = DetailsOf(status);
  for (const auto& detail : details.details()) {
    if (detail.Is<google::rpc::RetryInfo>()) return true;
  }
  return false;
}

// The options that set fields of a design, of materials and of settings.
constexpr std::pair<const char*, const char*> kOptions[] = {
    {"design.technique", "--technique"},
    {"design.facing", "--facing"},
    {"design.ends", "--ends"},
    {"design.file.cell_scale", "--cell-scale"},
    {"design.file.stitch_count", "--stitches"},
    {"design.file.row_count", "--rows"},
    {"file.stitch_count", "--stitches"},
    {"file.row_count", "--rows"},
    {"design.file.tolerance", "--tolerance"},
    {"design.file.colour_a", "--colour-a"},
    {"design.file.colour_b", "--colour-b"},
    {"design.form", "--form"},
    {"design.foundation_colour", "--foundation-colour"},
    {"design.row_colours", "--row-colours"},
    {"design.file.row_colours", "--row-colours"},
    {"design.file.colours", "--colour"},
    {"design.file.grid", "--grid"},
    {"design.file.crop", "--crop"},
    {"file.row_colours", "--row-colours"},
    {"file.cell_scale", "--cell-scale"},
    {"file.tolerance", "--tolerance"},
    {"file.colour_a", "--colour-a"},
    {"file.colour_b", "--colour-b"},
    {"file.colours", "--colour"},
    {"file.grid", "--grid"},
    {"file.crop", "--crop"},
    {"settings.longest_carried_run", "--longest-carried-run"},
    {"settings.longest_skip", "--longest-skip"},
    {"settings.longest_flap", "--longest-flap"},
    {"options.symmetries", "--symmetry"},
    {"options.locked_areas", "--lock"},
    {"options.longest_run", "--longest-run"},
    {"facing", "--to-facing"},
    {"ends", "--to-ends"},
    {"max_answer_count", "--answers"},
    {"cell_scale", "--scale"},
    {"colours", "--shade"},
    {"cell_size_px", "--cell-pixels"},
    {"cell_size_mm", "--cell-mm"},
    {"title", "--title"},
    {"gauge", "--gauge"},
    {"wrong_side_share", "--wrong-side-share"},
    {"kind", "--show"},
    {"design.stitch_band", "--stitch-band"},
    {"design.row_band", "--row-band"},
    {"hand", "--hand"},
    {"terms", "--terms"},
    {"colour_names", "--colour-name"},
    {"definitions", "--stitch"},
    {"sizes", "--size-name"},
    {"text", "TEXTFILE"},
    {"settings.hand", "--hand"},
    {"settings.terms", "--terms"},
    {"settings.nesting_depth", "--nesting"},
    {"settings.colour_names", "--colour-name"},
    {"materials.gauge.stitches_per_decimetre", "--stitches-per-10cm"},
    {"materials.gauge.rows_per_decimetre", "--rows-per-10cm"},
    {"materials.yarns[0].yarn.wraps_per_inch", "--wpi"},
    {"materials.yarns[0].yarn.weight_class", "--weight-class"},
    {"materials.yarns[0].yarn.ball_band.length_m", "--ball-m"},
    {"materials.yarns[0].yarn.ball_band.mass_g", "--ball-g"},
    {"materials.yarns[0].yarn.tex", "--tex"},
    {"materials.yarns", "--wpi or --yarn"},
    {"materials.hook_mm", "--hook-mm"},
    {"materials.gauge_readings[0].stitches", "--gauge"},
    {"materials.gauge_readings[0].rows", "--gauge"},
    {"materials.gauge_readings[0].stitch_span_mm", "--gauge"},
    {"materials.fringe_length_mm", "--fringe-of-tails"},
    {"materials.border.round_count", "--border"},
    {"materials.border.role", "--border"},
    {"materials.swatch.stitch_count", "--swatch"},
    {"materials.swatch.row_count", "--swatch"},
    {"materials.stitches_per_minute", "--stitches-per-minute"},
    {"materials.minutes_per_row_start", "--minutes-per-row-start"},
    {"materials.assurance", "--assurance"},
    {"materials.tail_length_mm", "--tail-mm"},
    {"materials.slack", "--slack"},
    {"width_mm", "--width"},
    {"height_mm", "--height"},
    {"minutes_per_end", "--minutes-per-end"},
    {"size", "--size-name"},
    {"scope.technique", "--technique"},
    {"scope.weight_class", "--weight-class"},
    {"left_out", "--leave-out"},
    {"designer_text", "--text"},
    {"designer_text_terms", "--terms"},
    {"designer_text_hand", "--hand"},
};

// The field's name in `names`, or that of the message it is part of.
std::optional<std::string> NameIn(const FieldNames& names, const std::string& field) {
  for (size_t length = field.size(); length > 0;) {
    const auto found = names.find(field.substr(0, length));
    if (found != names.end()) return found->second;
    const size_t end = field.find_last_of(".[", length - 1);
    length = end == std::string::npos ? 0 : end;
  }
  return std::nullopt;
}

// What people know the field by.
std::string OptionOf(const std::string& field, const FieldNames& names) {
  static const auto& options = *new FieldNames(std::begin(kOptions), std::end(kOptions));
  const std::string inner = field.starts_with("content.") ? field.substr(8) : field;
  if (const auto own = NameIn(names, field); own.has_value()) return *own;
  return NameIn(options, inner).value_or(field);
}

// What is wrong with a field. A description in lower case continues after the field's name; any
// other is a sentence.
std::string Told(const std::string& field, const std::string& description,
                 const FieldNames& names) {
  const bool whole = !description.empty() && description[0] >= 'A' && description[0] <= 'Z';
  return OptionOf(field, names) + (whole ? ": " : " ") + description;
}

std::string_view WithoutStop(std::string_view text) {
  if (text.ends_with('.')) text.remove_suffix(1);
  return text;
}

// How many conditions one line names; the answer's details have all of them.
constexpr int kMostTold = 6;

// The sentence with the conditions that it does not name already.
std::string WithConditions(const std::string& sentence,
                           const google::rpc::PreconditionFailure& unmet) {
  std::string others;
  bool names_some = false;
  int count = 0;
  for (const auto& violation : unmet.violations()) {
    const bool named = sentence.find(violation.description()) != std::string::npos;
    names_some |= named;
    if (named || ++count > kMostTold) continue;
    others += others.empty() ? "" : "; ";
    others += WithoutStop(violation.description());
  }
  if (others.empty()) return sentence;
  if (count > kMostTold) others += fmt::format("; and {} more", count - kMostTold);
  return fmt::format("{}{}{}", WithoutStop(sentence), names_some ? "; " : ": ", others);
}

}  // namespace

ExitCode ExitCodeOf(const grpc::Status& status) {
  switch (status.error_code()) {
    case grpc::StatusCode::OK:
      return ExitCode::kDone;
    case grpc::StatusCode::NOT_FOUND:
      return ExitCode::kNotFound;
    case grpc::StatusCode::UNAVAILABLE:
    case grpc::StatusCode::DEADLINE_EXCEEDED:
      return ExitCode::kUnavailable;
    case grpc::StatusCode::RESOURCE_EXHAUSTED:
      return MayBeTriedAgain(status) ? ExitCode::kUnavailable : ExitCode::kRefused;
    case grpc::StatusCode::INVALID_ARGUMENT:
    case grpc::StatusCode::FAILED_PRECONDITION:
    case grpc::StatusCode::UNIMPLEMENTED:
    case grpc::StatusCode::ABORTED:
    case grpc::StatusCode::ALREADY_EXISTS:
    case grpc::StatusCode::PERMISSION_DENIED:
    case grpc::StatusCode::UNAUTHENTICATED:
    case grpc::StatusCode::OUT_OF_RANGE:
      return ExitCode::kRefused;
    default:
      return ExitCode::kInternalError;
  }
}

Failure MustBe(const std::string& name, const std::string& expected, std::string_view got,
               ExitCode code) {
  return {code, fmt::format("{} must be {} (got \"{}\")", name, expected,
                            text::OneLine(std::string(got)))};
}

std::string LineOf(const grpc::Status& status, const FieldNames& names) {
  const google::rpc::Status details = DetailsOf(status);
  std::string line;
  google::rpc::PreconditionFailure unmet;
  for (const auto& detail : details.details()) {
    google::rpc::BadRequest bad;
    detail.UnpackTo(&unmet);
    if (!detail.UnpackTo(&bad)) continue;
    for (const auto& violation : bad.field_violations()) {
      if (line.ends_with('.')) line.pop_back();
      if (!line.empty()) line += "; ";
      line += Told(violation.field(), violation.description(), names);
    }
  }
  if (line.empty()) line = status.error_message();
  line = WithConditions(line, unmet);
  if (line.empty()) line = fmt::format("status {} without a message", status.error_code());
  return text::OneLine(line);
}

Failure FailureOf(const grpc::Status& status, const FieldNames& names) {
  return {ExitCodeOf(status), LineOf(status, names)};
}

}  // namespace rowproof::client
