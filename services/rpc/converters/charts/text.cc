#include "services/rpc/converters/charts/text.h"

#include <google/protobuf/repeated_field.h>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/rows/comparing/sentences.h"
#include "services/domain/rows/text_counts.h"
#include "services/domain/rows/text_words.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

absl::StatusOr<std::vector<rows::ColourName>> ColourNamesFrom(
    const google::protobuf::RepeatedPtrField<v1::ColourName>& names) {
  std::vector<rows::ColourName> read;
  for (int i = 0; i < names.size(); ++i) {
    ASSIGN_OR_RETURN(auto colour,
                     ColourFromProto(fmt::format("colour_names[{}].colour", i), names[i].colour()));
    read.push_back({names[i].name(), colour});
  }
  return read;
}

absl::StatusOr<std::vector<rows::DefinedStitch>> DefinitionsFrom(
    const google::protobuf::RepeatedPtrField<v1::DefinedStitch>& stitches) {
  std::vector<rows::DefinedStitch> read;
  for (int i = 0; i < stitches.size(); ++i) {
    const v1::StitchMeaning meaning = stitches[i].meaning();
    if (meaning != v1::STITCH_MEANING_DROP && meaning != v1::STITCH_MEANING_PLAIN) {
      return InvalidField(fmt::format("definitions[{}].meaning", i),
                          std::to_string(static_cast<int>(meaning)), "drop or plain");
    }
    read.push_back({stitches[i].name(), meaning == v1::STITCH_MEANING_DROP
                                            ? rows::TextStitch::kDrop
                                            : rows::TextStitch::kPlain});
  }
  return read;
}

// What requests about a text have in common.
template <typename Request, typename Settings>
absl::Status TakeNames(const Request& request, Settings* settings) {
  ASSIGN_OR_RETURN(auto terms, TermsFrom("terms", request.terms()));
  settings->terms = terms;
  ASSIGN_OR_RETURN(auto names, ColourNamesFrom(request.colour_names()));
  settings->colours = std::move(names);
  ASSIGN_OR_RETURN(auto definitions, DefinitionsFrom(request.definitions()));
  settings->definitions = std::move(definitions);
  return absl::OkStatus();
}

void Put(const rows::TextPlace& place, v1::TextPlace* to) {
  to->set_line(place.line);
  to->set_column(place.column);
}

void Put(const rows::SizedCount& count, google::protobuf::RepeatedField<int>* to) {
  if (!count.is_list()) return to->Add(count.Of(0));
  for (const int number : count.list()) to->Add(number);
}

v1::TextFinding ReadingToProto(const rows::TextFinding& finding) {
  v1::TextFinding to;
  to.set_code(EnumTo<v1::TextFindingCode>(finding.code));
  to.set_severity(EnumTo<v1::Severity>(finding.severity));
  Put(finding.at, to.mutable_place());
  to.set_met(finding.met);
  to.set_fits(finding.fits);
  to.set_sentence(rows::Sentence(finding));
  return to;
}

std::string WhatIsCounted(const rows::StatedCount& stated, chart::Terms terms) {
  switch (stated.what) {
    case rows::StatedCount::What::kStitches:
      return "sts";
    case rows::StatedCount::What::kChainSpaces:
      return "ch-sps";
    case rows::StatedCount::What::kOneKind:
      return rows::AbbreviationOf(stated.stitch, terms);
  }
  return "";
}

v1::TextRowKind KindOf(rows::TextRow::Body body) {
  switch (body) {
    case rows::TextRow::Body::kUnread:
      return v1::TEXT_ROW_KIND_UNSPECIFIED;
    case rows::TextRow::Body::kSteps:
      return v1::TEXT_ROW_KIND_STITCHES;
    case rows::TextRow::Body::kReference:
      return v1::TEXT_ROW_KIND_REPEAT;
  }
  return v1::TEXT_ROW_KIND_UNSPECIFIED;
}

v1::TextRow RowToProto(const rows::TextRow& row, const std::vector<rows::LineCount>& counts,
                       const rows::TextDocument& document) {
  const chart::Terms terms = document.terms.value_or(chart::Terms::kUs);
  v1::TextRow to;
  Put(row.at, to.mutable_place());
  to.set_numbers(rows::Numbers(row));
  if (row.only_size >= 0) to.set_size(document.sizes[static_cast<size_t>(row.only_size)]);
  to.set_round(row.round);
  if (row.side.has_value()) to.set_side(ToProto(*row.side));
  if (row.colour.has_value()) to.set_colour(ToProto(*row.colour));
  to.set_kind(KindOf(row.body));
  to.set_says(rows::Words(row, terms));
  for (const rows::StatedCount& stated : row.stated) {
    auto* added = to.add_stated();
    added->set_what(WhatIsCounted(stated, terms));
    Put(stated.count, added->mutable_counts());
  }
  for (size_t size = 0; size < counts.size(); ++size) {
    if (!counts[size].has_value()) continue;
    auto* added = to.add_counts();
    added->set_size(document.sizes[size]);
    added->set_stitch_count(counts[size]->stitches);
    added->set_chain_space_count(counts[size]->chain_spaces);
  }
  return to;
}

v1::ComparisonFinding FindingToProto(const rows::ComparisonFinding& finding,
                                     const rows::Comparison& comparison) {
  v1::ComparisonFinding to;
  to.set_code(EnumTo<v1::ComparisonFindingCode>(finding.code));
  to.set_severity(EnumTo<v1::Severity>(finding.severity));
  for (const int size : finding.sizes) {
    to.add_sizes(comparison.sizes[static_cast<size_t>(size)]);
  }
  to.set_row(finding.row);
  for (const int row : finding.rows) to.add_rows(row);
  to.set_chart_row(finding.chart_row);
  to.set_stitch(finding.stitch);
  to.set_last_stitch(finding.last_stitch);
  for (const int off_by : finding.off_by) to.add_differences(off_by);
  to.set_other_row(finding.other_row);
  Put(finding.at, to.mutable_place());
  to.set_text_says(finding.text_says);
  to.set_chart_says(finding.chart_says);
  to.set_sentence(rows::Sentence(finding, comparison));
  to.set_corrected(finding.corrected);
  return to;
}

v1::RowAgreement AgreementToProto(rows::Agreement agreement) {
  switch (agreement) {
    case rows::Agreement::kAgrees:
      return v1::ROW_AGREEMENT_AGREES;
    case rows::Agreement::kDiffers:
      return v1::ROW_AGREEMENT_DIFFERS;
    case rows::Agreement::kMissing:
      return v1::ROW_AGREEMENT_MISSING;
    case rows::Agreement::kNotRead:
      return v1::ROW_AGREEMENT_NOT_READ;
    case rows::Agreement::kTooMany:
      return v1::ROW_AGREEMENT_TOO_MANY;
  }
  return v1::ROW_AGREEMENT_UNSPECIFIED;
}

v1::ComparedRow RowToProto(const rows::ComparedRow& row) {
  v1::ComparedRow to;
  to.set_number(row.number);
  for (const int number : row.numbers) to.add_numbers(number);
  to.set_chart_row(row.chart_row);
  to.set_agreement(AgreementToProto(row.agreement));
  to.set_heading(row.heading);
  to.set_text(row.text);
  to.set_chart(row.chart);
  return to;
}

}  // namespace

absl::StatusOr<std::optional<chart::Terms>> TermsFrom(const std::string& field, v1::Terms terms) {
  if (terms == v1::TERMS_UNSPECIFIED) return std::optional<chart::Terms>();
  ASSIGN_OR_RETURN(auto read, SpecifiedEnumFrom<chart::Terms>(field, terms, 2, "US or UK"));
  return std::optional(read);
}

absl::StatusOr<rows::ReaderSettings> FromProto(const v1::ReadRowsRequest& request) {
  rows::ReaderSettings settings;
  settings.sizes.assign(request.sizes().begin(), request.sizes().end());
  RETURN_IF_ERROR(TakeNames(request, &settings));
  return settings;
}

absl::StatusOr<rows::ComparisonSettings> FromProto(const v1::CompareRowsRequest& request) {
  rows::ComparisonSettings settings;
  ASSIGN_OR_RETURN(auto hand,
                   EnumFrom("hand", request.hand(), chart::Hand::kRight, 2, "right or left"));
  settings.hand = hand;
  RETURN_IF_ERROR(TakeNames(request, &settings));
  return settings;
}

v1::TextRows ToProto(const rows::TextDocument& document) {
  v1::TextRows to;
  if (document.terms.has_value()) to.set_terms(EnumTo<v1::Terms>(*document.terms));
  to.set_terms_declared(document.terms_declared);
  for (const std::string& size : document.sizes) to.add_sizes(size);
  for (const rows::ColourName& name : document.colours) {
    auto* added = to.add_colour_names();
    added->set_name(name.name);
    added->set_colour(ToProto(name.colour));
  }
  for (const rows::DefinedStitch& stitch : document.definitions) {
    auto* added = to.add_definitions();
    added->set_name(stitch.name);
    added->set_meaning(stitch.meaning == rows::TextStitch::kDrop ? v1::STITCH_MEANING_DROP
                                                                 : v1::STITCH_MEANING_PLAIN);
  }
  if (document.foundation.has_value()) {
    auto* foundation = to.mutable_foundation();
    Put(document.foundation->chains, foundation->mutable_chains());
    if (document.foundation->colour) foundation->set_colour(ToProto(*document.foundation->colour));
    foundation->set_ring(document.foundation->ring);
    Put(document.foundation->at, foundation->mutable_place());
  }
  const rows::TextCounts counts = rows::CountRows(document);
  for (size_t line = 0; line < document.rows.size(); ++line) {
    *to.add_rows() = RowToProto(document.rows[line], counts.lines[line], document);
  }
  for (const rows::TextFinding& finding : document.findings)
    *to.add_findings() = ReadingToProto(finding);
  to.set_error_count(document.error_count);
  to.set_warning_count(document.warning_count);
  to.set_note_count(document.note_count);
  to.set_counts_left_out(!counts.complete);
  return to;
}

v1::TextComparison CountsToProto(const rows::Comparison& comparison, int comparison_version) {
  v1::TextComparison to;
  to.set_error_count(comparison.error_count);
  to.set_warning_count(comparison.warning_count);
  to.set_note_count(comparison.note_count);
  to.set_equal(comparison.equal());
  to.set_comparison_version(comparison_version);
  return to;
}

v1::TextComparison ToProto(const rows::Comparison& comparison, int comparison_version) {
  v1::TextComparison to = CountsToProto(comparison, comparison_version);
  for (const auto& finding : comparison.findings) {
    *to.add_findings() = FindingToProto(finding, comparison);
  }
  for (const auto& finding : comparison.reading) *to.add_reading() = ReadingToProto(finding);
  for (const auto& row : comparison.rows) *to.add_rows() = RowToProto(row);
  to.set_terms(EnumTo<v1::Terms>(comparison.terms));
  return to;
}

}  // namespace rowproof::rpc
