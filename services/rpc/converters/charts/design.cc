#include "services/rpc/converters/charts/design.h"

#include <bit>
#include <cstring>
#include <optional>

#include "fmt/format.h"
#include "services/domain/chart/technique.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/chart_file.h"
#include "services/rpc/converters/charts/text.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

size_t RowBytes(int stitches) { return static_cast<size_t>(stitches + 7) / 8; }

// One byte per cell, and the marks that follow from them.
absl::Status ReadPictureColours(const v1::Chart& chart, const Stop& stop, chart::Design* design) {
  const size_t wanted =
      static_cast<size_t>(chart.row_count()) * static_cast<size_t>(chart.stitch_count());
  if (chart.picture_colours().size() != wanted) {
    return InvalidField(
        "chart.picture_colours", fmt::format("{} bytes", chart.picture_colours().size()),
        fmt::format("{} bytes: {} rows of {}", wanted, chart.row_count(), chart.stitch_count()));
  }
  design->picture_colours.reserve(wanted);
  for (size_t i = 0; i < wanted; ++i) {
    if (stop.After(1)) return stop.status();
    const int number = static_cast<unsigned char>(chart.picture_colours()[i]);
    if (number < 1 || number > static_cast<int>(chart::kMostColours)) {
      return InvalidField("chart.picture_colours", fmt::format("{} at byte {}", number, i),
                          "1 to 8: the number of a colour from A to H");
    }
    design->picture_colours.push_back(static_cast<chart::Colour>(number - 1));
  }
  return absl::OkStatus();
}

// If `cells` is left out: set where a cell does not show its row's own colour.
chart::Grid MarksOf(const chart::Design& design, int rows, int stitches, const Stop& stop) {
  chart::Grid cells(rows, stitches);
  size_t cell = 0;
  for (int row = 1; row <= rows; ++row) {
    if (stop.After(stitches)) break;
    const chart::Colour own = RowColour(design, row);
    for (int stitch = 1; stitch <= stitches; ++stitch, ++cell) {
      if (design.picture_colours[cell] != own) cells.set(row, stitch, true);
    }
  }
  return cells;
}

absl::Status CheckExtent(const v1::Chart& chart) {
  if (chart.row_count() < 1 || chart.row_count() > chart::kMostRows) {
    return InvalidField("chart.row_count", std::to_string(chart.row_count()),
                        fmt::format("1 to {} rows", chart::kMostRows));
  }
  if (chart.stitch_count() < 1 || chart.stitch_count() > chart::kMostStitches) {
    return InvalidField("chart.stitch_count", std::to_string(chart.stitch_count()),
                        fmt::format("1 to {} stitches", chart::kMostStitches));
  }
  return absl::OkStatus();
}

absl::Status ReadCells(const v1::Chart& chart, chart::Grid* cells) {
  const size_t row_bytes = RowBytes(chart.stitch_count());
  const size_t wanted = row_bytes * static_cast<size_t>(chart.row_count());
  if (chart.cells().size() != wanted) {
    return InvalidField(
        "chart.cells", fmt::format("{} bytes", chart.cells().size()),
        fmt::format("{} bytes: {} rows of {}", wanted, chart.row_count(), row_bytes));
  }
  chart::Grid grid(chart.row_count(), chart.stitch_count());
  const uint64_t past_the_last = ~grid.last_word_mask();
  static_assert(std::endian::native == std::endian::little, "bytes of a row become words");
  for (int row = 1; row <= chart.row_count(); ++row) {
    const auto words = grid.mutable_row(row);
    std::memcpy(words.data(), chart.cells().data() + static_cast<size_t>(row - 1) * row_bytes,
                row_bytes);
    if ((words.back() & past_the_last) != 0) {
      return InvalidField("chart.cells",
                          fmt::format("a set bit past the last stitch in row {}", row),
                          "padded with zero bits");
    }
  }
  *cells = std::move(grid);
  return absl::OkStatus();
}

std::string WriteCells(const chart::Grid& cells) {
  const size_t row_bytes = RowBytes(cells.stitches());
  std::string bytes(row_bytes * static_cast<size_t>(cells.rows()), '\0');
  for (int row = 1; row <= cells.rows(); ++row) {
    std::memcpy(bytes.data() + static_cast<size_t>(row - 1) * row_bytes, cells.row(row).data(),
                row_bytes);
  }
  return bytes;
}

absl::Status ReadChart(const v1::Chart& chart, const Stop& stop, chart::Design* design) {
  RETURN_IF_ERROR(CheckExtent(chart));
  ASSIGN_OR_RETURN(auto row_colours, RowColoursFromProto("chart.row_colours", chart.row_colours()));
  const auto rows = static_cast<size_t>(chart.row_count());
  if (!row_colours.empty() && row_colours.size() != rows) {
    return InvalidField("chart.row_colours", fmt::format("{} colours", row_colours.size()),
                        fmt::format("one colour for each of the {} rows, or unset", rows));
  }
  design->row_colours = std::move(row_colours);
  if (!chart.picture_colours().empty()) {
    RETURN_IF_ERROR(ReadPictureColours(chart, stop, design));
  }
  if (chart.cells().empty() && !design->picture_colours.empty()) {
    design->cells = MarksOf(*design, chart.row_count(), chart.stitch_count(), stop);
    return stop.status();
  }
  return ReadCells(chart, &design->cells);
}

absl::Status ReadSource(const v1::Design& design, const Stop& stop,
                        usecases::DesignSource* source) {
  if (design.has_file()) {
    ASSIGN_OR_RETURN(auto file, FromProto(design.file()));
    source->design.convention = file.settings.convention;
    source->design.row_colours = file.settings.row_colours;
    source->file = std::move(file);
    return absl::OkStatus();
  }
  if (!design.has_chart()) return MissingField("chart", "given, unless file is");
  ASSIGN_OR_RETURN(auto convention, EnumFrom("chart.convention", design.chart().convention(),
                                             chart::Convention::kPicture, 2, "picture or working"));
  source->design.convention = convention;
  return ReadChart(design.chart(), stop, &source->design);
}

absl::Status ReadMethod(const v1::Design& from, chart::Design* design) {
  ASSIGN_OR_RETURN(auto technique, EnumFrom("technique", from.technique(), chart::Technique::kSpike,
                                            3, "spike, overlay or inset"));
  ASSIGN_OR_RETURN(auto facing, EnumFrom("facing", from.facing(), chart::Facing::kTwoFace, 3,
                                         "one-face, two-face or paired"));
  ASSIGN_OR_RETURN(auto ends,
                   EnumFrom("ends", from.ends(), chart::Ends::kCut, 3, "cut, carried or waiting"));
  ASSIGN_OR_RETURN(auto form, EnumFrom("form", from.form(), chart::Form::kFlat, 2, "flat or tube"));
  design->technique = technique;
  design->ends = ends;
  design->form = form;
  if (from.facing() == v1::FACING_UNSPECIFIED || chart::FacingIsChosen(*design)) {
    design->facing = facing;
    return absl::OkStatus();
  }
  // Saying what the technique decides anyway is allowed.
  if (facing == chart::FacingOf(*design)) return absl::OkStatus();
  return InvalidField(
      "facing", chart::Name(facing),
      fmt::format("left out, or {}, as {} always is", chart::Name(chart::FacingOf(*design)),
                  form == chart::Form::kTube ? "a tube" : chart::Name(technique)));
}

void ReadBandsAndSizes(const v1::Design& from, chart::Design* design) {
  if (from.has_stitch_band()) {
    design->stitch_band = chart::Band{from.stitch_band().first(), from.stitch_band().last()};
  }
  if (from.has_row_band()) {
    design->row_band = chart::Band{from.row_band().first(), from.row_band().last()};
  }
  if (from.sizes_size() > 0) design->sizes.clear();
  for (const auto& size : from.sizes()) {
    design->sizes.push_back({size.name(),
                             size.stitch_repeat_count() == 0 ? 1 : size.stitch_repeat_count(),
                             size.row_repeat_count() == 0 ? 1 : size.row_repeat_count()});
  }
  if (from.has_first_row_number()) design->first_row_number = from.first_row_number();
}

absl::Status ReadFoundation(const v1::Design& from, chart::Design* design) {
  if (from.foundation_colour() == v1::COLOUR_UNSPECIFIED) return absl::OkStatus();
  ASSIGN_OR_RETURN(auto colour, ColourFromProto("foundation_colour", from.foundation_colour()));
  design->foundation_colour = colour;
  return absl::OkStatus();
}

}  // namespace

absl::StatusOr<usecases::DesignSource> FromProto(const v1::Design& design, const Stop& stop) {
  usecases::DesignSource source;
  if (auto s = ReadMethod(design, &source.design); !s.ok()) return UnderField(s, "design");
  if (design.sizes_size() > chart::kMostSizes) {
    return InvalidField("design.sizes", fmt::format("{} sizes", design.sizes_size()),
                        fmt::format("at most {} sizes", chart::kMostSizes));
  }
  ReadBandsAndSizes(design, &source.design);
  source.ends_unspecified = design.ends() == v1::ENDS_UNSPECIFIED;
  if (auto s = ReadFoundation(design, &source.design); !s.ok()) return UnderField(s, "design");
  if (auto s = ReadSource(design, stop, &source); !s.ok()) return UnderField(s, "design");
  return source;
}

absl::StatusOr<rows::RowStyle> FromProto(const std::string& field,
                                         const v1::RowSettings& settings) {
  rows::RowStyle read;
  if (settings.hand() != v1::HAND_UNSPECIFIED) {
    ASSIGN_OR_RETURN(auto hand, SpecifiedEnumFrom<chart::Hand>(field + ".hand", settings.hand(), 2,
                                                               "right or left"));
    read.hand = hand;
  }
  ASSIGN_OR_RETURN(read.terms, TermsFrom(field + ".terms", settings.terms()));
  ASSIGN_OR_RETURN(read.repeats, RepeatsFrom(field + ".repeat_style", settings.repeat_style()));
  read.every_row = settings.every_row();
  if (settings.colour_names_size() > static_cast<int>(chart::kMostColours)) {
    return InvalidField(field + ".colour_names",
                        fmt::format("{} names", settings.colour_names_size()),
                        fmt::format("at most {} names", chart::kMostColours));
  }
  read.colour_names.assign(settings.colour_names().begin(), settings.colour_names().end());
  if (settings.has_nesting_depth()) {
    if (settings.nesting_depth() < 0 || settings.nesting_depth() > rows::kDeepestNesting) {
      return InvalidField(field + ".nesting_depth", std::to_string(settings.nesting_depth()),
                          fmt::format("0 to {}", rows::kDeepestNesting));
    }
    read.nesting_depth = settings.nesting_depth();
  }
  return read;
}

absl::StatusOr<std::optional<rows::RepeatStyle>> RepeatsFrom(const std::string& field,
                                                             v1::RepeatStyle style) {
  if (style == v1::REPEAT_STYLE_UNSPECIFIED) return std::optional<rows::RepeatStyle>();
  ASSIGN_OR_RETURN(auto read,
                   SpecifiedEnumFrom<rows::RepeatStyle>(field, style, 2, "brackets or asterisk"));
  return std::optional(read);
}

v1::RowSettings ToProto(const rows::RowStyle& style) {
  v1::RowSettings settings;
  if (style.hand.has_value()) settings.set_hand(EnumTo<v1::Hand>(*style.hand));
  if (style.terms.has_value()) settings.set_terms(EnumTo<v1::Terms>(*style.terms));
  if (style.repeats.has_value()) settings.set_repeat_style(EnumTo<v1::RepeatStyle>(*style.repeats));
  if (style.nesting_depth.has_value()) settings.set_nesting_depth(*style.nesting_depth);
  settings.set_every_row(style.every_row);
  settings.mutable_colour_names()->Assign(style.colour_names.begin(), style.colour_names.end());
  return settings;
}

absl::StatusOr<usecases::ReadDesign> DesignFrom(const v1::Design& design, const Stop& stop) {
  ASSIGN_OR_RETURN(auto source, FromProto(design, stop));
  return usecases::Read(source, stop);
}

absl::StatusOr<int> SizeIndex(const chart::Design& design, const std::string& name) {
  if (name.empty()) return 0;
  for (size_t i = 0; i < design.sizes.size(); ++i) {
    if (design.sizes[i].name == name) return static_cast<int>(i);
  }
  return InvalidField("size", name, "one of the design's sizes, " + chart::SizesInWords(design));
}

v1::Chart ChartToProto(const chart::Design& design) {
  v1::Chart chart;
  chart.set_row_count(design.cells.rows());
  chart.set_stitch_count(design.cells.stitches());
  chart.set_convention(EnumTo<v1::Convention>(design.convention));
  chart.set_cells(WriteCells(design.cells));
  for (const chart::Colour colour : design.row_colours) chart.add_row_colours(ToProto(colour));
  std::string& named = *chart.mutable_picture_colours();
  named.reserve(design.picture_colours.size());
  for (const chart::Colour colour : design.picture_colours) {
    named += static_cast<char>(ToProto(colour));
  }
  return chart;
}

v1::Design ToProto(const chart::Design& design) {
  v1::Design to;
  to.set_technique(EnumTo<v1::Technique>(design.technique));
  to.set_facing(EnumTo<v1::Facing>(chart::FacingOf(design)));
  to.set_ends(EnumTo<v1::Ends>(design.ends));
  to.set_form(EnumTo<v1::Form>(design.form));
  *to.mutable_chart() = ChartToProto(design);
  if (design.stitch_band.has_value()) {
    to.mutable_stitch_band()->set_first(design.stitch_band->first);
    to.mutable_stitch_band()->set_last(design.stitch_band->last);
  }
  if (design.row_band.has_value()) {
    to.mutable_row_band()->set_first(design.row_band->first);
    to.mutable_row_band()->set_last(design.row_band->last);
  }
  for (const auto& size : design.sizes) {
    auto* added = to.add_sizes();
    added->set_name(size.name);
    added->set_stitch_repeat_count(size.stitch_repeats);
    added->set_row_repeat_count(size.row_repeats);
  }
  to.set_first_row_number(design.first_row_number);
  if (design.foundation_colour.has_value()) {
    to.set_foundation_colour(ToProto(*design.foundation_colour));
  }
  return to;
}

v1::WrittenRows ToProto(const rows::WrittenPattern& pattern) {
  v1::WrittenRows to;
  for (const auto& row : pattern.rows) {
    auto* added = to.add_rows();
    added->set_heading(row.heading);
    added->set_number(row.number);
    added->set_last_number(row.last_number);
    added->set_text(row.text);
    added->set_stitch_count(row.stitch_counts.empty() ? 0 : row.stitch_counts.front());
    for (const int count : row.stitch_counts) added->add_size_stitch_counts(count);
    added->set_chain_space_count(row.chain_space_counts.empty() ? 0
                                                                : row.chain_space_counts.front());
    for (const int count : row.chain_space_counts) added->add_size_chain_space_counts(count);
    added->set_side(ToProto(row.side));
    added->set_colour(ToProto(row.colour));
    added->set_chart_row(row.chart_row);
  }
  for (const auto& line : pattern.abbreviations) to.add_abbreviations(line);
  for (const auto& line : pattern.special_stitches) to.add_special_stitches(line);
  for (const auto& line : pattern.notes) to.add_notes(line);
  to.set_budget_ran_out(pattern.budget_ran_out);
  return to;
}

v1::Colour ToProto(chart::Colour colour) { return EnumTo<v1::Colour>(colour); }

absl::StatusOr<chart::Colour> ColourFromProto(const std::string& field, v1::Colour colour) {
  return SpecifiedEnumFrom<chart::Colour>(field, colour, static_cast<int>(chart::kMostColours),
                                          "A to H");
}

absl::StatusOr<std::vector<chart::Colour>> RowColoursFromProto(
    const std::string& field, const google::protobuf::RepeatedField<int>& colours) {
  if (colours.size() > chart::kMostRows) {
    return InvalidField(field, fmt::format("{} colours", colours.size()), "one colour a row");
  }
  std::vector<chart::Colour> row_colours;
  row_colours.reserve(static_cast<size_t>(colours.size()));
  for (int i = 0; i < colours.size(); ++i) {
    ASSIGN_OR_RETURN(auto colour, ColourFromProto(fmt::format("{}[{}]", field, i),
                                                  static_cast<v1::Colour>(colours[i])));
    row_colours.push_back(colour);
  }
  return row_colours;
}

v1::Side ToProto(chart::Side side) {
  return side == chart::Side::kRightSide ? v1::SIDE_RIGHT : v1::SIDE_WRONG;
}

google::protobuf::Timestamp ToProto(Moment moment) {
  google::protobuf::Timestamp timestamp;
  timestamp.set_seconds(Micros(moment) / 1'000'000);
  timestamp.set_nanos(static_cast<int32_t>(Micros(moment) % 1'000'000 * 1000));
  return timestamp;
}

}  // namespace rowproof::rpc
