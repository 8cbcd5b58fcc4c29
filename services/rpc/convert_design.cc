#include "services/rpc/convert_design.h"

#include <bit>
#include <cstring>
#include <optional>

#include "fmt/format.h"
#include "services/domain/errors.h"

namespace rowproof::rpc {
namespace {

// Proto enums begin at 1 in the domain's order, 0 being unspecified; foreign numbers are refused.
template <typename Enum, typename ProtoEnum>
absl::StatusOr<Enum> EnumFrom(const std::string& field, ProtoEnum value, Enum usual, int count,
                              const char* accepted) {
  const int number = static_cast<int>(value);
  if (number == 0) return usual;
  if (number < 0 || number > count) {
    return InvalidField(field, std::to_string(number), accepted);
  }
  return static_cast<Enum>(number - 1);
}

size_t RowBytes(int stitches) { return static_cast<size_t>(stitches + 7) / 8; }

absl::Status ReadCells(const v1::Chart& chart, chart::Grid* cells) {
  if (chart.row_count() < 1 || chart.row_count() > chart::kMostRows) {
    return InvalidField("chart.row_count", std::to_string(chart.row_count()),
                        fmt::format("1 to {} rows", chart::kMostRows));
  }
  if (chart.stitch_count() < 1 || chart.stitch_count() > chart::kMostStitches) {
    return InvalidField("chart.stitch_count", std::to_string(chart.stitch_count()),
                        fmt::format("1 to {} stitches", chart::kMostStitches));
  }
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
                          "zero bits there");
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

template <typename Colours>
absl::Status ReadRowColours(const std::string& field, const Colours& colours,
                            std::vector<chart::Colour>* row_colours) {
  if (colours.size() > chart::kMostRows) {
    return InvalidField(field, fmt::format("{} colours", colours.size()), "one colour a row");
  }
  for (int i = 0; i < colours.size(); ++i) {
    auto colour =
        ColourFromProto(fmt::format("{}[{}]", field, i), static_cast<v1::Colour>(colours[i]));
    if (!colour.ok()) return colour.status();
    row_colours->push_back(*colour);
  }
  return absl::OkStatus();
}

absl::StatusOr<std::optional<images::Rgb>> ReadRgb(const std::string& field,
                                                   const std::string& text) {
  if (text.empty()) return std::optional<images::Rgb>();
  const auto rgb = images::ParseRgb(text);
  if (!rgb.has_value()) return InvalidField(field, text, "a colour such as #1e3a5f, or nothing");
  return rgb;
}

absl::Status ReadFile(const v1::ChartFile& file, chart::Convention convention,
                      usecases::DesignFile* read) {
  read->content = file.content();
  read->settings.convention = convention;
  if (file.cell_scale() < 0 || file.cell_scale() > images::kLargestCellScale) {
    return InvalidField("file.cell_scale", std::to_string(file.cell_scale()),
                        fmt::format("1 to {}, or 0 to find it", images::kLargestCellScale));
  }
  if (file.cell_scale() > 0) read->settings.cell_scale = file.cell_scale();
  if (file.tolerance() < 0 || file.tolerance() > 255) {
    return InvalidField("file.tolerance", std::to_string(file.tolerance()), "0 to 255");
  }
  read->settings.tolerance = file.tolerance();
  read->settings.swap_colours = file.swap_colours();
  auto colour_a = ReadRgb("file.colour_a", file.colour_a());
  if (!colour_a.ok()) return colour_a.status();
  auto colour_b = ReadRgb("file.colour_b", file.colour_b());
  if (!colour_b.ok()) return colour_b.status();
  read->settings.colour_a = *colour_a;
  read->settings.colour_b = *colour_b;
  return absl::OkStatus();
}

absl::Status ReadSource(const v1::Design& design, usecases::DesignSource* source) {
  constexpr char kConventions[] = "picture or working";
  if (design.has_file()) {
    auto convention = EnumFrom("file.convention", design.file().convention(),
                               chart::Convention::kPicture, 2, kConventions);
    if (!convention.ok()) return convention.status();
    source->design.convention = *convention;
    source->file.emplace();
    if (auto s = ReadFile(design.file(), *convention, &*source->file); !s.ok()) return s;
    return ReadRowColours("file.row_colours", design.file().row_colours(),
                          &source->design.row_colours);
  }
  if (!design.has_chart()) return MissingField("chart", "a chart or a file");
  auto convention = EnumFrom("chart.convention", design.chart().convention(),
                             chart::Convention::kPicture, 2, kConventions);
  if (!convention.ok()) return convention.status();
  source->design.convention = *convention;
  if (auto s = ReadCells(design.chart(), &source->design.cells); !s.ok()) return s;
  return ReadRowColours("chart.row_colours", design.chart().row_colours(),
                        &source->design.row_colours);
}

absl::Status ReadMethod(const v1::Design& from, chart::Design* design) {
  auto technique = EnumFrom("technique", from.technique(), chart::Technique::kSpike, 3,
                            "spike, overlay or inset");
  if (!technique.ok()) return technique.status();
  auto facing =
      EnumFrom("facing", from.facing(), chart::Facing::kTwoFace, 3, "one-face, two-face or paired");
  if (!facing.ok()) return facing.status();
  auto ends = EnumFrom("ends", from.ends(), chart::Ends::kCut, 3, "cut, carried or waiting");
  if (!ends.ok()) return ends.status();
  auto form = EnumFrom("form", from.form(), chart::Form::kFlat, 2, "flat or tube");
  if (!form.ok()) return form.status();
  design->technique = *technique;
  design->facing = *facing;
  design->ends = *ends;
  design->form = *form;
  return absl::OkStatus();
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
    design->sizes.push_back({size.name(), size.stitch_repeats() == 0 ? 1 : size.stitch_repeats(),
                             size.row_repeats() == 0 ? 1 : size.row_repeats()});
  }
  if (from.has_first_row_number()) design->first_row_number = from.first_row_number();
}

const char* SeamName(chart::Seam seam) {
  switch (seam) {
    case chart::Seam::kNone:
      return "";
    case chart::Seam::kRowRepeat:
      return "row-repeat";
    case chart::Seam::kStitchRepeat:
      return "stitch-repeat";
    case chart::Seam::kJoin:
      return "join";
  }
  return "";
}

const char* KindName(chart::Alternative::Kind kind) {
  switch (kind) {
    case chart::Alternative::Kind::kPlainRowBelow:
      return "plain-row-below";
    case chart::Alternative::Kind::kPlainRowAbove:
      return "plain-row-above";
    case chart::Alternative::Kind::kColoursExchanged:
      return "colours-exchanged";
    case chart::Alternative::Kind::kRepeatMoved:
      return "repeat-moved";
  }
  return "";
}

}  // namespace

absl::StatusOr<usecases::DesignSource> FromProto(const v1::Design& design) {
  usecases::DesignSource source;
  if (auto s = ReadMethod(design, &source.design); !s.ok()) return UnderField(s, "design");
  if (design.sizes_size() > chart::kMostSizes) {
    return InvalidField("design.sizes", fmt::format("{} sizes", design.sizes_size()),
                        fmt::format("at most {} sizes", chart::kMostSizes));
  }
  ReadBandsAndSizes(design, &source.design);
  if (auto s = ReadSource(design, &source); !s.ok()) return UnderField(s, "design");
  return source;
}

absl::StatusOr<rows::WriterSettings> FromProto(const v1::RowSettings& settings) {
  rows::WriterSettings read;
  auto hand = EnumFrom("settings.hand", settings.hand(), chart::Hand::kRight, 2, "right or left");
  if (!hand.ok()) return hand.status();
  auto terms = EnumFrom("settings.terms", settings.terms(), chart::Terms::kUs, 2, "US or UK");
  if (!terms.ok()) return terms.status();
  read.hand = *hand;
  read.terms = *terms;
  read.every_row = settings.every_row();
  auto style = EnumFrom("settings.repeat_style", settings.repeat_style(),
                        rows::RepeatStyle::kBrackets, 2, "brackets or asterisk");
  if (!style.ok()) return style.status();
  read.style = *style;
  if (settings.colour_names_size() > static_cast<int>(chart::kMostColours)) {
    return InvalidField("settings.colour_names",
                        fmt::format("{} names", settings.colour_names_size()),
                        fmt::format("at most {} names", chart::kMostColours));
  }
  read.colour_names.assign(settings.colour_names().begin(), settings.colour_names().end());
  if (settings.has_nesting_depth()) {
    if (settings.nesting_depth() < 0 || settings.nesting_depth() > rows::kDeepestNesting) {
      return InvalidField("settings.nesting_depth", std::to_string(settings.nesting_depth()),
                          fmt::format("0 to {}", rows::kDeepestNesting));
    }
    read.nesting_depth = settings.nesting_depth();
  }
  return read;
}

v1::Chart ChartToProto(const chart::Design& design, const chart::Grid& cells) {
  v1::Chart chart;
  chart.set_row_count(cells.rows());
  chart.set_stitch_count(cells.stitches());
  chart.set_convention(design.convention == chart::Convention::kPicture ? v1::CONVENTION_PICTURE
                                                                        : v1::CONVENTION_WORKING);
  chart.set_cells(WriteCells(cells));
  for (const chart::Colour colour : design.row_colours) chart.add_row_colours(ToProto(colour));
  return chart;
}

v1::Design ToProto(const chart::Design& design) {
  v1::Design to;
  to.set_technique(static_cast<v1::Technique>(static_cast<int>(design.technique) + 1));
  to.set_facing(static_cast<v1::Facing>(static_cast<int>(design.facing) + 1));
  to.set_ends(static_cast<v1::Ends>(static_cast<int>(design.ends) + 1));
  to.set_form(static_cast<v1::Form>(static_cast<int>(design.form) + 1));
  *to.mutable_chart() = ChartToProto(design, design.cells);
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
    added->set_stitch_repeats(size.stitch_repeats);
    added->set_row_repeats(size.row_repeats);
  }
  to.set_first_row_number(design.first_row_number);
  return to;
}

v1::CheckResult ToProto(const chart::CheckResult& check, const chart::Design& design,
                        int rules_version, bool swap_colours_offered) {
  v1::CheckResult to;
  for (const auto& finding : check.findings) {
    auto* added = to.add_findings();
    added->set_code(chart::CodeName(finding.code));
    added->set_severity(static_cast<v1::Severity>(static_cast<int>(finding.severity) + 1));
    added->set_row(finding.row);
    added->set_stitch(finding.stitch);
    added->set_last_stitch(finding.last_stitch);
    added->set_seam(SeamName(finding.seam));
    if (finding.size_count < static_cast<int>(design.sizes.size())) {
      added->set_size(design.sizes[static_cast<size_t>(finding.size)].name);
    }
    added->set_sentence(chart::Sentence(finding, design));
  }
  to.set_error_count(check.error_count);
  to.set_warning_count(check.warning_count);
  to.set_note_count(check.note_count);
  to.set_workable(check.workable());
  to.set_rules_version(rules_version);
  to.set_swap_colours_offered(swap_colours_offered);
  return to;
}

v1::RepairResult ToProto(const chart::Repair& repair, const chart::Design& design) {
  v1::RepairResult to;
  for (const auto& edit : repair.edits) {
    auto* added = to.add_edits();
    added->set_row(edit.row);
    added->set_stitch(edit.stitch);
    added->set_value(edit.value);
  }
  to.set_edit_count(repair.edit_count);
  for (const auto& alternative : repair.alternatives) {
    auto* added = to.add_alternatives();
    added->set_kind(KindName(alternative.kind));
    added->set_rows_moved(alternative.rows_moved);
    added->set_edits_left(alternative.edits_left);
  }
  *to.mutable_repaired() = ChartToProto(design, repair.repaired);
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

v1::Colour ToProto(chart::Colour colour) {
  return colour == chart::Colour::kA ? v1::COLOUR_A : v1::COLOUR_B;
}

absl::StatusOr<chart::Colour> ColourFromProto(const std::string& field, v1::Colour colour) {
  if (colour == v1::COLOUR_A) return chart::Colour::kA;
  if (colour == v1::COLOUR_B) return chart::Colour::kB;
  return InvalidField(field, std::to_string(static_cast<int>(colour)), "A or B");
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
