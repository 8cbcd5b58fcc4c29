// The written rows of a pattern sheet.
#include <algorithm>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/rows/writing/writer.h"
#include "services/domain/sheets/words.h"
#include "services/domain/status_macros.h"
#include "services/usecases/sheets/sheets.h"

namespace rowproof::usecases {
namespace {

const char* Name(chart::Terms terms) { return terms == chart::Terms::kUs ? "US" : "UK"; }
const char* Name(chart::Hand hand) { return hand == chart::Hand::kRight ? "right" : "left"; }

// "term - meaning" or "term: meaning".
drawing::Definition Split(const std::string& text, const std::string& at) {
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
absl::StatusOr<chart::Terms> TermsOf(const ReadVersion& version, const SheetStyle& style) {
  if (version.content.designer_text.empty()) return style.terms.value_or(chart::Terms::kUs);
  const chart::Terms own = version.row.comparison.has_value()
                               ? version.row.comparison->terms
                               : version.content.designer_text_terms.value_or(chart::Terms::kUs);
  if (style.terms.value_or(own) == own) return own;
  return InvalidField("sheet.terms", Name(*style.terms),
                      fmt::format("{}, like the version's own text", Name(own)));
}

}  // namespace

absl::Status AddRows(const ReleaseBasis& basis, const SheetStyle& style,
                     drawing::PatternSheet& sheet) {
  const patterns::VersionContent& content = basis.version.content;
  const bool own = !content.designer_text.empty();
  ASSIGN_OR_RETURN(const auto terms, TermsOf(basis.version, style));
  rows::WriterSettings settings;
  settings.terms = terms;
  settings.style = style.repeat_style;
  settings.colour_names = content.colour_names;
  const chart::Hand hand = own ? content.designer_text_hand : chart::Hand::kRight;
  const chart::Hand other = hand == chart::Hand::kRight ? chart::Hand::kLeft : chart::Hand::kRight;
  settings.hand = hand;
  ASSIGN_OR_RETURN(auto first, rows::WriteRows(content.design, settings));
  settings.hand = other;
  ASSIGN_OR_RETURN(auto second, rows::WriteRows(content.design, settings));
  sheet.terms =
      fmt::format("{} terms; {}-handed rows{}, and {}-handed rows after them", Name(terms),
                  Name(hand), own ? " in the designer's own words" : "", Name(other));
  for (const auto& line : first.abbreviations) sheet.abbreviations.push_back(Split(line, " - "));
  for (const auto& line : first.special_stitches) {
    sheet.special_stitches.push_back(Split(line, ": "));
  }
  for (const auto& note : first.notes) sheet.notes.push_back(note);
  sheet.written_rows = own ? sheets::Lines(content.designer_text) : RowLines(first);
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

}  // namespace rowproof::usecases
