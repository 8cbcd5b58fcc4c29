#include "services/domain/faults/erratum.h"

#include <algorithm>
#include <array>

#include "fmt/format.h"
#include "services/domain/chart/expand.h"
#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/domain/estimate/accepted_range.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/text.h"

namespace rowproof::faults {
namespace {

constexpr std::array<const char*, kErratumKinds> kKindNames = {
    "stitch", "count", "colour", "side", "repeat", "materials", "measurement", "other"};
constexpr std::array<const char*, 4> kSeenInNames = {"chart", "text", "both", "elsewhere"};

absl::Status ValidateStitches(const Erratum& erratum, int stitches, const std::string& field) {
  if (erratum.first_stitch == 0 && erratum.last_stitch == 0) return absl::OkStatus();
  if (erratum.row == 0) {
    return MissingField(field + ".row", "the worked row in which the stitches were counted");
  }
  RETURN_IF_ERROR(estimate::CheckCount(field + ".first_stitch", erratum.first_stitch, 1, stitches,
                                       "stitches of the size"));
  return estimate::CheckCount(field + ".last_stitch", erratum.last_stitch, erratum.first_stitch,
                              stitches, "(from the first stitch to the size's last)");
}

absl::StatusOr<ErratumDecision> Decide(const ErratumDecision& now, ErratumState wanted,
                                       const std::string& note, const std::string& name) {
  RETURN_IF_ERROR(ValidateText("note", note, kLongestDecisionNote, true));
  if (wanted != ErratumState::kAccepted && note.empty()) {
    return MissingField("note", "a sentence to the testers that says why");
  }
  if (now.state == wanted) {
    return WrongState("ERRATUM_STATE", name,
                      fmt::format("The erratum is already {}.", Name(wanted)));
  }
  return ErratumDecision{wanted, note};
}

template <size_t n, typename Enum>
bool ParseName(const std::array<const char*, n>& names, const std::string& name, Enum* value) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return false;
  *value = static_cast<Enum>(found - names.begin());
  return true;
}

}  // namespace

absl::Status ValidateErratum(const Erratum& erratum, const chart::Design& design, int size,
                             const std::string& field) {
  RETURN_IF_ERROR(estimate::CheckCount(field + ".row", erratum.row, 0,
                                       testcalls::WorkedRowCount(design, size),
                                       "(0 where no row is concerned)"));
  RETURN_IF_ERROR(ValidateStitches(erratum, chart::ExpandedStitches(design, size), field));
  const std::array<std::pair<const char*, const std::string*>, 3> texts = {
      {{".was", &erratum.was}, {".should_be", &erratum.should_be}, {".remark", &erratum.remark}}};
  for (const auto& [name, text] : texts) {
    RETURN_IF_ERROR(ValidateText(field + name, *text, kLongestErratumText, false));
  }
  if (erratum.row == 0 && erratum.was.empty() && erratum.should_be.empty() &&
      erratum.remark.empty()) {
    return MissingField(field + ".remark", "given if no row is: say what is wrong and where");
  }
  return absl::OkStatus();
}

int ChartStitch(const chart::Design& design, int size, int row, int counted, CountedFrom from,
                chart::Hand hand) {
  const int stitches = chart::ExpandedStitches(design, size);
  ROWPROOF_CHECK(counted >= 1 && counted <= stitches);
  const bool from_stitch_one =
      from == CountedFrom::kStitchOne || chart::WorkedRowStartsAtStitchOne(design, row, hand);
  return from_stitch_one ? counted : stitches + 1 - counted;
}

StitchRange ChartStitches(const chart::Design& design, int size, const Erratum& erratum,
                          chart::Hand hand) {
  if (erratum.first_stitch == 0) return {};
  const int first =
      ChartStitch(design, size, erratum.row, erratum.first_stitch, erratum.counted_from, hand);
  const int last =
      ChartStitch(design, size, erratum.row, erratum.last_stitch, erratum.counted_from, hand);
  return {std::min(first, last), std::max(first, last)};
}

absl::StatusOr<ErratumDecision> Accept(const ErratumDecision& now, const std::string& note,
                                       const std::string& name) {
  return Decide(now, ErratumState::kAccepted, note, name);
}

absl::StatusOr<ErratumDecision> Decline(const ErratumDecision& now, const std::string& note,
                                        const std::string& name) {
  return Decide(now, ErratumState::kDeclined, note, name);
}

absl::StatusOr<ErratumDecision> Reopen(const ErratumDecision& now, const std::string& note,
                                       const std::string& name) {
  return Decide(now, ErratumState::kOpen, note, name);
}

absl::Status MayConfirm(const ConfirmationFacts& facts, const std::string& name) {
  if (facts.reported_it) {
    return WrongState("OWN_ERRATUM", name, "The erratum is already in your own report.");
  }
  if (facts.erratum_row > facts.last_row) {
    return WrongState(
        "ROW_NOT_REACHED", name,
        fmt::format("The erratum is in worked row {}, and your last report reached row {}; "
                    "report again when you have worked it.",
                    facts.erratum_row, facts.last_row));
  }
  return absl::OkStatus();
}

const char* Name(ErratumKind kind) { return kKindNames[static_cast<size_t>(kind)]; }

const char* Name(SeenIn seen_in) { return kSeenInNames[static_cast<size_t>(seen_in)]; }

const char* Name(CountedFrom from) {
  return from == CountedFrom::kStitchOne ? "stitch 1" : "row start";
}

const char* Name(ErratumState state) {
  switch (state) {
    case ErratumState::kOpen:
      return "open";
    case ErratumState::kAccepted:
      return "accepted";
    case ErratumState::kDeclined:
      return "declined";
  }
  return "";
}

const char* Name(Confirmation confirmation) {
  return confirmation == Confirmation::kMetItToo ? "met-it-too" : "worked-it-right";
}

bool ParseErratumKind(const std::string& name, ErratumKind* kind) {
  return ParseName(kKindNames, name, kind);
}

}  // namespace rowproof::faults
