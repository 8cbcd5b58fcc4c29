#include "services/rpc/converters/release.h"

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/converters/charts/design.h"
#include "services/rpc/converters/charts/text.h"
#include "services/rpc/converters/enum_from_proto.h"

namespace rowproof::rpc {
namespace {

v1::GateCode GateToProto(releases::GateCode code) {
  switch (code) {
    case releases::GateCode::kChartWorkable:
      return v1::GATE_CODE_CHART_WORKABLE;
    case releases::GateCode::kTextEqualsChart:
      return v1::GATE_CODE_TEXT_EQUALS_CHART;
    case releases::GateCode::kErrataDecided:
      return v1::GATE_CODE_ERRATA_DECIDED;
    case releases::GateCode::kSizesTested:
      return v1::GATE_CODE_SIZES_TESTED;
    case releases::GateCode::kPredictionsReconciled:
      return v1::GATE_CODE_PREDICTIONS_RECONCILED;
  }
  return v1::GATE_CODE_UNSPECIFIED;
}

absl::StatusOr<releases::GateCode> GateFromProto(const std::string& field, v1::GateCode code) {
  switch (code) {
    case v1::GATE_CODE_CHART_WORKABLE:
      return releases::GateCode::kChartWorkable;
    case v1::GATE_CODE_TEXT_EQUALS_CHART:
      return releases::GateCode::kTextEqualsChart;
    case v1::GATE_CODE_ERRATA_DECIDED:
      return releases::GateCode::kErrataDecided;
    case v1::GATE_CODE_SIZES_TESTED:
      return releases::GateCode::kSizesTested;
    case v1::GATE_CODE_PREDICTIONS_RECONCILED:
      return releases::GateCode::kPredictionsReconciled;
    default:
      return InvalidField(field, std::to_string(static_cast<int>(code)), "one of the gates");
  }
}

v1::GateState StateToProto(releases::GateState state) {
  switch (state) {
    case releases::GateState::kOpen:
      return v1::GATE_STATE_OPEN;
    case releases::GateState::kMet:
      return v1::GATE_STATE_MET;
    case releases::GateState::kPassedOver:
      return v1::GATE_STATE_PASSED_OVER;
  }
  return v1::GATE_STATE_UNSPECIFIED;
}

struct FileFacts {
  v1::ReleaseFileKind kind;
  const char* name;
  const char* media_type;
};

FileFacts FactsOf(releases::ReleaseFileKind kind) {
  switch (kind) {
    case releases::ReleaseFileKind::kPatternSheetPdf:
      return {v1::RELEASE_FILE_KIND_PATTERN_SHEET_PDF, "pattern-version-{}.pdf", "application/pdf"};
    case releases::ReleaseFileKind::kErrataSheetPdf:
      return {v1::RELEASE_FILE_KIND_ERRATA_SHEET_PDF, "errata-version-{}.pdf", "application/pdf"};
    case releases::ReleaseFileKind::kErrataSheetText:
      return {v1::RELEASE_FILE_KIND_ERRATA_SHEET_TEXT, "errata-version-{}.txt",
              "text/plain; charset=utf-8"};
  }
  return {v1::RELEASE_FILE_KIND_UNSPECIFIED, "", ""};
}

}  // namespace

v1::Gate ToProto(const releases::Gate& gate) {
  v1::Gate to;
  to.set_code(GateToProto(gate.code));
  to.set_state(StateToProto(gate.state));
  to.set_sentence(gate.sentence);
  to.set_reason(gate.reason);
  return to;
}

v1::ReleaseFile ToProto(const releases::ReleaseFile& file, int version_number, bool withdrawn) {
  const FileFacts facts = FactsOf(file.kind);
  v1::ReleaseFile to;
  to.set_kind(facts.kind);
  to.set_file_name(fmt::format(fmt::runtime(facts.name), version_number));
  to.set_media_type(facts.media_type);
  to.set_size_bytes(file.size_bytes);
  to.set_sha256(HexOf(file.sha256));
  to.set_content(file.content);
  to.set_state(withdrawn ? v1::RELEASE_STATE_WITHDRAWN : v1::RELEASE_STATE_PUBLISHED);
  return to;
}

v1::Release ToProto(const releases::ReleaseRecord& row) {
  v1::Release to;
  if (!row.id.empty()) to.set_name(ToString(ReleaseName{row.pattern, row.id}));
  to.set_version(ToString(VersionName{row.pattern, row.version_number}));
  if (!row.call.empty()) to.set_test_call(ToString(TestCallName{row.pattern, row.call}));
  if (row.reconciliation != 0) {
    to.set_reconciliation(ToString(ReconciliationName{row.pattern, row.call, row.reconciliation}));
  }
  to.set_author(ToString(AccountName{row.author}));
  *to.mutable_create_time() = ToProto(row.created_at);
  for (const auto& gate : row.gates) *to.add_gates() = ToProto(gate);
  for (const int version : row.versions_concerned) {
    to.add_versions_concerned(ToString(VersionName{row.pattern, version}));
  }
  for (const auto& file : row.files) {
    v1::ReleaseFile facts = ToProto(file, row.version_number, row.withdrawn_at.has_value());
    facts.clear_content();
    *to.add_files() = std::move(facts);
  }
  to.set_state(row.withdrawn_at.has_value() ? v1::RELEASE_STATE_WITHDRAWN
                                            : v1::RELEASE_STATE_PUBLISHED);
  if (row.withdrawn_at.has_value()) *to.mutable_withdraw_time() = ToProto(*row.withdrawn_at);
  to.set_withdraw_reason(row.withdraw_reason);
  return to;
}

absl::StatusOr<std::vector<releases::Waiver>> WaiversFrom(const v1::CreateReleaseRequest& request) {
  std::vector<releases::Waiver> waivers;
  for (int i = 0; i < request.waivers_size(); ++i) {
    ASSIGN_OR_RETURN(auto code,
                     GateFromProto(fmt::format("waivers[{}].code", i), request.waivers(i).code()));
    waivers.push_back({code, request.waivers(i).reason()});
  }
  return waivers;
}

absl::StatusOr<sheets::SheetStyle> StyleFrom(const v1::SheetSettings& sheet) {
  sheets::SheetStyle style;
  ASSIGN_OR_RETURN(auto terms, TermsFrom("sheet.terms", sheet.terms()));
  style.terms = terms;
  ASSIGN_OR_RETURN(style.repeat_style, RepeatsFrom("sheet.repeat_style", sheet.repeat_style()));
  return style;
}

absl::StatusOr<releases::ReleaseFileKind> FromProto(const std::string& field,
                                                    v1::ReleaseFileKind kind) {
  switch (kind) {
    case v1::RELEASE_FILE_KIND_PATTERN_SHEET_PDF:
      return releases::ReleaseFileKind::kPatternSheetPdf;
    case v1::RELEASE_FILE_KIND_ERRATA_SHEET_PDF:
      return releases::ReleaseFileKind::kErrataSheetPdf;
    case v1::RELEASE_FILE_KIND_ERRATA_SHEET_TEXT:
      return releases::ReleaseFileKind::kErrataSheetText;
    default:
      return InvalidField(field, std::to_string(static_cast<int>(kind)),
                          "RELEASE_FILE_KIND_PATTERN_SHEET_PDF, RELEASE_FILE_KIND_ERRATA_SHEET_PDF "
                          "or RELEASE_FILE_KIND_ERRATA_SHEET_TEXT");
  }
}

}  // namespace rowproof::rpc
