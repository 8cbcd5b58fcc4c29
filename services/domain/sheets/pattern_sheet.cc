#include "services/domain/sheets/pattern_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/sheets/pattern_sentences.h"
#include "services/domain/sheets/words.h"
#include "services/domain/status_macros.h"

namespace rowproof::sheets {
namespace {

// The factor by which testers' pieces correct an estimated width or height: exp of mu's posterior
// median, the middle of what new makers get.
std::optional<double> CorrectionOf(const SheetVersion& version, reconcile::Quantity which) {
  if (!version.reconciliation.has_value()) return std::nullopt;
  for (const reconcile::QuantityResult& quantity : version.reconciliation->result.quantities) {
    if (quantity.quantity != which || quantity.used == 0) continue;
    return std::exp(quantity.mu.median);
  }
  return std::nullopt;
}

// A size that testers measured needs no note.
void AddBasis(const char* what, const std::optional<double>& correction,
              std::vector<std::string>& notes) {
  if (correction.has_value()) return;
  notes.push_back(fmt::format("{}: estimated from the gauge.", what));
}

const char* Name(chart::Terms terms) { return terms == chart::Terms::kUs ? "US" : "UK"; }
const char* Name(chart::Hand hand) { return hand == chart::Hand::kRight ? "right" : "left"; }

// "term - meaning" or "term: meaning".
Definition Split(const std::string& text, const std::string& at) {
  const size_t place = text.find(at);
  if (place == std::string::npos) return {text, ""};
  return {text.substr(0, place), text.substr(place + at.size())};
}

std::vector<std::string> RowLines(const rows::WrittenPattern& written) {
  std::vector<std::string> lines;
  for (const rows::WrittenRow& row : written.rows) {
    if (!row.heading.empty()) lines.push_back(row.heading);
    lines.push_back(row.text);
  }
  return lines;
}

// Those of the designer's text, since one sheet does not mix terms; otherwise as asked for.
absl::StatusOr<chart::Terms> TermsOf(const SheetVersion& version, const SheetStyle& style) {
  if (version.content.designer_text.empty()) {
    return style.terms.value_or(version.content.row_style.terms.value_or(chart::Terms::kUs));
  }
  const chart::Terms own =
      version.text_terms.value_or(version.content.designer_text_terms.value_or(chart::Terms::kUs));
  if (style.terms.value_or(own) == own) return own;
  return InvalidField("sheet.terms", Name(*style.terms),
                      fmt::format("{}, like the version's own text", Name(own)));
}

std::string Counted(int64_t count, const char* one, const char* many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

// "1 to 12, 40"; at most a few, since the sheet is for makers.
std::string RowRanges(const std::vector<faults::RowRange>& ranges, int first_row_number) {
  constexpr size_t kMost = 8;
  std::string words;
  for (size_t i = 0; i < std::min(ranges.size(), kMost); ++i) {
    const int first = ranges[i].first + first_row_number - 1;
    const int last = ranges[i].last + first_row_number - 1;
    words += (words.empty() ? "" : ", ") +
             (first == last ? std::to_string(first) : fmt::format("{} to {}", first, last));
  }
  if (ranges.size() > kMost) {
    words +=
        " and " + Counted(static_cast<int64_t>(ranges.size() - kMost), "more range", "more ranges");
  }
  return words;
}

std::string Finished(const TestedWork& work) {
  std::map<std::string, int> finished;
  for (const auto& seat : work.seats) {
    finished[seat.size] += seat.state == testcalls::SeatState::kFinished ? 1 : 0;
  }
  std::string words;
  for (const chart::Size& size : work.design.sizes) {
    words += fmt::format("{}{} of {}", words.empty() ? "" : ", ", finished[size.name], size.name);
  }
  return words;
}

std::string HandsAndSources(const TestedWork& work) {
  int left = 0;
  int chart_only = 0;
  int text_only = 0;
  for (const auto& row : work.reports) {
    left += row.report.hand == chart::Hand::kLeft ? 1 : 0;
    chart_only += row.report.worked_from == testcalls::WorkedFrom::kChart ? 1 : 0;
    text_only += row.report.worked_from == testcalls::WorkedFrom::kText ? 1 : 0;
  }
  const auto all = static_cast<int>(work.reports.size());
  return fmt::format(
      "{} worked left-handed. {} followed only the chart, {} only the written rows, {} both.", left,
      chart_only, text_only, all - chart_only - text_only);
}

}  // namespace

void AddSizes(const SheetVersion& version, PatternSheetText& sheet) {
  const bool tube = version.content.design.form == chart::Form::kTube;
  const auto width = CorrectionOf(version, reconcile::Quantity::kWidth);
  const auto height = CorrectionOf(version, reconcile::Quantity::kHeight);
  for (const estimate::SizeEstimate& size : version.estimates) {
    const estimate::Extent& extent =
        size.after_blocking.has_value() ? *size.after_blocking : size.before_blocking;
    const double width_mm = extent.width_mm * width.value_or(1);
    const double height_mm = extent.height_mm * height.value_or(1);
    sheet.sizes.push_back(
        {size.size, fmt::format("{} sts x {} {}", size.stitches, size.rows, tube ? "rnds" : "rows"),
         fmt::format("{} x {} cm", Centimetres(width_mm), Centimetres(height_mm)),
         fmt::format("{} x {} in", Inches(width_mm), Inches(height_mm))});
  }
  AddBasis(tube ? "Circumference" : "Width", width, sheet.size_notes);
  AddBasis(tube ? "Length" : "Height", height, sheet.size_notes);
}

absl::Status AddRows(const SheetVersion& version, const SheetStyle& style, const Stop& stop,
                     PatternSheetText& sheet) {
  const patterns::VersionContent& content = version.content;
  const bool own = !content.designer_text.empty();
  ASSIGN_OR_RETURN(const auto terms, TermsOf(version, style));
  rows::WriterSettings settings = rows::SettingsOf(content.row_style);
  settings.terms = terms;
  settings.style = style.repeat_style.value_or(settings.style);
  const chart::Hand hand = own ? content.designer_text_hand : settings.hand;
  const chart::Hand other = hand == chart::Hand::kRight ? chart::Hand::kLeft : chart::Hand::kRight;
  settings.hand = hand;
  ASSIGN_OR_RETURN(auto first, rows::WriteRows(content.design, settings, stop));
  settings.hand = other;
  ASSIGN_OR_RETURN(auto second, rows::WriteRows(content.design, settings, stop));
  for (auto& line : FinishingLines(content, version.estimates, settings)) {
    sheet.finishing.push_back(std::move(line));
  }
  sheet.terms =
      fmt::format("{} terms; {}-handed rows{}, and {}-handed rows after them", Name(terms),
                  Name(hand), own ? " in the designer's own words" : "", Name(other));
  for (const auto& line : first.abbreviations) sheet.abbreviations.push_back(Split(line, " - "));
  for (const auto& line : first.special_stitches) {
    sheet.special_stitches.push_back(Split(line, ": "));
  }
  for (const auto& note : first.notes) sheet.notes.push_back(note);
  sheet.written_rows = own ? Lines(content.designer_text) : RowLines(first);
  sheet.other_hand_heading = fmt::format("Written rows for {}-handed makers", Name(other));
  // What applies to this hand only is printed before its rows.
  for (const auto& note : second.notes) {
    if (std::find(first.notes.begin(), first.notes.end(), note) == first.notes.end()) {
      sheet.other_hand_rows.push_back(note);
    }
  }
  for (auto& line : RowLines(second)) sheet.other_hand_rows.push_back(std::move(line));
  return absl::OkStatus();
}

std::vector<std::string> TestedLines(const TestedWork* tested) {
  if (tested == nullptr) return {"This version was released without a test call."};
  const TestedWork& work = *tested;
  std::vector<std::string> lines = {fmt::format(
      "{} reported. Pieces finished: {}.",
      Counted(static_cast<int64_t>(work.reports.size()), "tester", "testers"), Finished(work))};
  if (work.reports.empty()) return lines;
  lines.push_back(HandsAndSources(work));
  for (const faults::SizeCoverage& size : work.coverage) {
    const std::string& name = work.design.sizes[static_cast<size_t>(size.size)].name;
    const auto untested = size.Below(1);
    if (!untested.empty()) {
      lines.push_back(fmt::format("Size {}: nobody has worked these rows as they now read: {}.",
                                  name, RowRanges(untested, work.design.first_row_number)));
      continue;
    }
    int least = size.rows.empty() ? 0 : size.rows.front().testers;
    for (const auto& row : size.rows) least = std::min(least, row.testers);
    lines.push_back(fmt::format("Size {}: every row, as it now reads, was worked by {} or more.",
                                name, Counted(least, "tester", "testers")));
  }
  return lines;
}

std::string ReplacesLine(int earlier_version) {
  return fmt::format("This version replaces version {}; the errata sheet lists what changed.",
                     earlier_version);
}

}  // namespace rowproof::sheets
