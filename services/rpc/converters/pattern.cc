#include "services/rpc/converters/pattern.h"

#include "services/domain/errors.h"
#include "services/domain/estimate/materials_validation.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/estimate.h"
#include "services/rpc/converters/charts/findings.h"
#include "services/rpc/converters/charts/materials.h"
#include "services/rpc/converters/charts/text.h"
#include "services/rpc/converters/enum_from_proto.h"
#include "services/rpc/page_token.h"
#include "services/usecases/read_version.h"
#include "services/usecases/submit_version.h"

namespace rowproof::rpc {
namespace {

v1::RowChange ToProto(patterns::RowChange change) {
  switch (change) {
    case patterns::RowChange::kSame:
      return v1::ROW_CHANGE_SAME;
    case patterns::RowChange::kChanged:
      return v1::ROW_CHANGE_CHANGED;
    case patterns::RowChange::kAdded:
      return v1::ROW_CHANGE_ADDED;
    case patterns::RowChange::kRemoved:
      return v1::ROW_CHANGE_REMOVED;
    case patterns::RowChange::kTextChanged:
      return v1::ROW_CHANGE_TEXT_CHANGED;
  }
  return v1::ROW_CHANGE_UNSPECIFIED;
}

// Terms and hand are those of the text, and nothing if there is none.
void PutText(const patterns::VersionContent& content, v1::VersionContent* to) {
  if (content.designer_text.empty()) return;
  to->set_designer_text(content.designer_text);
  if (content.designer_text_terms.has_value()) {
    to->set_designer_text_terms(EnumTo<v1::Terms>(*content.designer_text_terms));
  }
  to->set_designer_text_hand(EnumTo<v1::Hand>(content.designer_text_hand));
}

absl::Status TakeText(const v1::VersionContent& content, patterns::VersionContent* to) {
  ASSIGN_OR_RETURN(auto hand, EnumFrom("content.designer_text_hand", content.designer_text_hand(),
                                       chart::Hand::kRight, 2, "right or left"));
  ASSIGN_OR_RETURN(auto terms,
                   TermsFrom("content.designer_text_terms", content.designer_text_terms()));
  if (content.designer_text().empty()) return absl::OkStatus();
  to->designer_text = content.designer_text();
  to->designer_text_terms = terms;
  to->designer_text_hand = hand;
  return absl::OkStatus();
}

}  // namespace

v1::Pattern ToProto(const patterns::PatternRecord& row) {
  v1::Pattern pattern;
  pattern.set_name(ToString(PatternName{row.id}));
  pattern.set_title(row.title);
  pattern.set_designer(ToString(AccountName{row.designer}));
  pattern.set_version_count(row.version_count);
  *pattern.mutable_create_time() = ToProto(row.created_at);
  if (row.archived_at.has_value()) *pattern.mutable_archive_time() = ToProto(*row.archived_at);
  pattern.set_etag(MakeEtag(row.revision));
  return pattern;
}

v1::Version ToProto(const patterns::VersionRecord& row) {
  v1::Version version;
  version.set_name(ToString(VersionName{row.pattern, row.number}));
  version.set_number(row.number);
  if (row.parent_number != 0) {
    version.set_parent_version(ToString(VersionName{row.pattern, row.parent_number}));
  }
  version.set_author(ToString(AccountName{row.author}));
  *version.mutable_create_time() = ToProto(row.created_at);
  version.set_note(row.note);
  version.set_state(row.check.workable() ? v1::VERSION_STATE_WORKABLE : v1::VERSION_STATE_DRAFT);
  version.set_content_hash(HexOf(row.content_hash));
  version.set_model_version(row.model_version);
  auto* check = version.mutable_check();
  check->set_error_count(row.check.error_count);
  check->set_warning_count(row.check.warning_count);
  check->set_note_count(row.check.note_count);
  check->set_workable(row.check.workable());
  check->set_rules_version(row.rules_version);
  if (row.comparison.has_value()) {
    *version.mutable_comparison() = CountsToProto(*row.comparison, row.comparison_version);
  }
  return version;
}

v1::Version ToProto(const usecases::ReadVersion& version, bool swap_colours_offered) {
  v1::Version to = ToProto(version.row);
  *to.mutable_check() = ToProto(version.row.check, version.content.design,
                                version.row.rules_version, swap_colours_offered);
  v1::VersionContent* content = to.mutable_content();
  content->set_title(version.content.title);
  *content->mutable_design() = ToProto(version.content.design);
  *content->mutable_materials() = ToProto(version.content.materials);
  content->set_introduction(version.content.introduction);
  content->set_notes(version.content.notes);
  content->set_finishing(version.content.finishing);
  content->set_level(version.content.level);
  if (version.content.row_style != rows::RowStyle()) {
    *content->mutable_row_settings() = ToProto(version.content.row_style);
  }
  PutText(version.content, content);
  for (const auto& size : version.row.estimates) *to.add_estimates() = ToProto(size);
  if (const auto& comparison = version.row.comparison; comparison.has_value()) {
    *to.mutable_comparison() = ToProto(*comparison, version.row.comparison_version);
    // Not kept with a version: the answer is the same when it is submitted and read.
    to.mutable_comparison()->clear_rows();
    for (auto& finding : *to.mutable_comparison()->mutable_findings()) finding.clear_corrected();
  }
  return to;
}

v1::RowDifference ToProto(const patterns::RowDifference& row) {
  v1::RowDifference to;
  to.set_change(ToProto(row.change));
  to.set_old_row(row.old_row);
  to.set_new_row(row.new_row);
  for (const auto& range :
       row.change == patterns::RowChange::kRemoved ? row.old_stitches : row.new_stitches) {
    auto* stitches = to.add_stitches();
    stitches->set_first(range.first);
    stitches->set_last(range.last);
  }
  return to;
}

v1::VersionDifference ToProto(const patterns::VersionDifference& difference,
                              const PatternId& pattern, int from, int to) {
  v1::VersionDifference answer;
  answer.set_from(ToString(VersionName{pattern, from}));
  answer.set_to(ToString(VersionName{pattern, to}));
  for (const auto& row : difference.rows) {
    if (row.change == patterns::RowChange::kSame) continue;
    *answer.add_rows() = ToProto(row);
  }
  for (const auto& field : difference.fields) {
    auto* added = answer.add_fields();
    added->set_field(field.field);
    added->set_label(field.label);
    added->set_was(field.was);
    added->set_now(field.now);
  }
  answer.set_same_row_count(difference.same_row_count);
  return answer;
}

absl::StatusOr<usecases::VersionSubmission> FromProto(const v1::VersionContent& content,
                                                      const Stop& stop) {
  usecases::VersionSubmission submission;
  auto source = FromProto(content.design(), stop);
  if (!source.ok()) return UnderField(source.status(), "content");
  submission.source = std::move(*source);
  auto materials = FromProto(content.materials());
  if (!materials.ok()) return UnderField(materials.status(), "content.materials");
  if (auto status = estimate::SettleFoundation(materials->foundation_chain_declared,
                                               submission.source.design, materials->materials);
      !status.ok()) {
    return UnderField(status, "content.materials");
  }
  submission.content.materials = std::move(materials->materials);
  submission.calibration = std::move(materials->calibration);
  submission.content.title = content.title();
  submission.content.introduction = content.introduction();
  submission.content.notes = content.notes();
  submission.content.finishing = content.finishing();
  submission.content.level = content.level();
  ASSIGN_OR_RETURN(submission.content.row_style,
                   FromProto("content.row_settings", content.row_settings()));
  RETURN_IF_ERROR(TakeText(content, &submission.content));
  return submission;
}

absl::StatusOr<int> VersionOf(const std::string& field, const PatternId& pattern,
                              const std::string& name) {
  if (name.empty()) return 0;
  auto version = ParseName<VersionName>(field, name);
  if (!version.ok()) return version.status();
  if (version->pattern != pattern)
    return InvalidField(field, name, "a version of the same pattern");
  return version->version;
}

}  // namespace rowproof::rpc
