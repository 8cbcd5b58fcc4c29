// The enums that are stored: which numbers and names this build knows of each. Thread-safe.
#ifndef ROWPROOF_STORAGE_STORED_ENUM_H_
#define ROWPROOF_STORAGE_STORED_ENUM_H_

#include <optional>
#include <string_view>

#include "services/domain/access/permissions.h"
#include "services/domain/chart/check/findings.h"
#include "services/domain/chart/check/sentences.h"
#include "services/domain/chart/design.h"
#include "services/domain/estimate/calibration/kept_calibration.h"
#include "services/domain/estimate/estimate.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/faults/undiscovered.h"
#include "services/domain/reconcile/reconciliation.h"
#include "services/domain/releases/gates.h"
#include "services/domain/rows/comparing/comparison.h"
#include "services/domain/rows/comparing/sentences.h"
#include "services/domain/testcalls/call_settings.h"
#include "services/domain/testcalls/report.h"
#include "services/domain/testcalls/states.h"

namespace rowproof::storage {

// All numbers from kFirst to kLast, without gaps.
template <auto kFirstValue, auto kLastValue>
struct StoredNumbers {
  static constexpr int kFirst = static_cast<int>(kFirstValue);
  static constexpr int kLast = static_cast<int>(kLastValue);
};

template <typename Enum>
struct StoredEnum;

template <>
struct StoredEnum<access::Role> : StoredNumbers<access::Role::kDesigner, access::Role::kEditor> {};
template <>
struct StoredEnum<chart::Severity>
    : StoredNumbers<chart::Severity::kNote, chart::Severity::kError> {};
template <>
struct StoredEnum<chart::FindingCode> : StoredNumbers<0, chart::kFindingCodes - 1> {};
template <>
struct StoredEnum<chart::Seam> : StoredNumbers<chart::Seam::kNone, chart::Seam::kJoin> {};
template <>
struct StoredEnum<chart::Colour> : StoredNumbers<chart::Colour::kA, chart::Colour::kH> {};
template <>
struct StoredEnum<chart::Hand> : StoredNumbers<chart::Hand::kRight, chart::Hand::kLeft> {};
template <>
struct StoredEnum<chart::Terms> : StoredNumbers<chart::Terms::kUs, chart::Terms::kUk> {};
template <>
struct StoredEnum<chart::Technique>
    : StoredNumbers<chart::Technique::kSpike, chart::Technique::kInset> {};
template <>
struct StoredEnum<chart::Facing> : StoredNumbers<chart::Facing::kOneFace, chart::Facing::kPaired> {
};
template <>
struct StoredEnum<chart::Ends> : StoredNumbers<chart::Ends::kCut, chart::Ends::kWaiting> {};
template <>
struct StoredEnum<estimate::YarnColour>
    : StoredNumbers<estimate::YarnColour::kA, estimate::YarnColour::kH> {};
template <>
struct StoredEnum<estimate::PartKind> : StoredNumbers<0, estimate::kPartKinds - 1> {};
template <>
struct StoredEnum<estimate::NoteCode> : StoredNumbers<0, estimate::kNoteCodes - 1> {};
template <>
struct StoredEnum<estimate::CautionCode> : StoredNumbers<0, estimate::kCautionCodes - 1> {};
template <>
struct StoredEnum<estimate::UncertaintySource>
    : StoredNumbers<estimate::UncertaintySource::kModel,
                    estimate::UncertaintySource::kCalibration> {};
template <>
struct StoredEnum<estimate::MeasurementKind>
    : StoredNumbers<estimate::MeasurementKind::kUnravelledSwatch,
                    estimate::MeasurementKind::kWholePiece> {};
template <>
struct StoredEnum<rows::TextFindingCode>
    : StoredNumbers<rows::TextFindingCode::kUnreadable, rows::TextFindingCode::kPassedOver> {};
template <>
struct StoredEnum<rows::ComparisonCode> : StoredNumbers<0, rows::kComparisonCodes - 1> {};
template <>
struct StoredEnum<testcalls::CallState>
    : StoredNumbers<testcalls::CallState::kDraft, testcalls::CallState::kClosed> {};
template <>
struct StoredEnum<testcalls::SeatState>
    : StoredNumbers<testcalls::SeatState::kOffered, testcalls::SeatState::kCancelled> {};
template <>
struct StoredEnum<testcalls::Choice>
    : StoredNumbers<testcalls::Choice::kSame, testcalls::Choice::kFree> {};
template <>
struct StoredEnum<testcalls::WorkedFrom>
    : StoredNumbers<testcalls::WorkedFrom::kChart, testcalls::WorkedFrom::kBoth> {};
template <>
struct StoredEnum<faults::ErratumKind>
    : StoredNumbers<faults::ErratumKind::kStitch, faults::ErratumKind::kOther> {};
template <>
struct StoredEnum<faults::SeenIn>
    : StoredNumbers<faults::SeenIn::kChart, faults::SeenIn::kElsewhere> {};
template <>
struct StoredEnum<faults::CountedFrom>
    : StoredNumbers<faults::CountedFrom::kStitchOne, faults::CountedFrom::kRowStart> {};
template <>
struct StoredEnum<faults::ErratumState>
    : StoredNumbers<faults::ErratumState::kOpen, faults::ErratumState::kDeclined> {};
template <>
struct StoredEnum<faults::Confirmation>
    : StoredNumbers<faults::Confirmation::kMetItToo, faults::Confirmation::kWorkedItRight> {};
template <>
struct StoredEnum<faults::EstimatorUsed>
    : StoredNumbers<faults::EstimatorUsed::kNone, faults::EstimatorUsed::kChao> {};
template <>
struct StoredEnum<reconcile::Quantity>
    : StoredNumbers<reconcile::Quantity::kYarnA, reconcile::Quantity::kYarnH> {};
template <>
struct StoredEnum<releases::GateCode> : StoredNumbers<releases::GateCode::kChartWorkable,
                                                      releases::GateCode::kPredictionsReconciled> {
};
template <>
struct StoredEnum<releases::GateState>
    : StoredNumbers<releases::GateState::kOpen, releases::GateState::kPassedOver> {};

// None for a number that this build does not know.
template <typename Enum>
std::optional<Enum> EnumOfNumber(int number) {
  if (number < StoredEnum<Enum>::kFirst || number > StoredEnum<Enum>::kLast) return std::nullopt;
  return static_cast<Enum>(number);
}

// The stable name under which an enum is stored if it is stored by name.
template <typename Enum>
std::string_view StoredName(Enum value) {
  if constexpr (requires { CodeName(value); }) {
    return CodeName(value);
  } else if constexpr (requires { SeverityName(value); }) {
    return SeverityName(value);
  } else {
    return Name(value);
  }
}
inline std::string_view StoredName(chart::Terms terms) {
  return terms == chart::Terms::kUs ? "US" : "UK";
}

// None for a name that this build does not know.
template <typename Enum>
std::optional<Enum> EnumOfName(std::string_view name) {
  for (int number = StoredEnum<Enum>::kFirst; number <= StoredEnum<Enum>::kLast; ++number) {
    if (name == StoredName(static_cast<Enum>(number))) return static_cast<Enum>(number);
  }
  return std::nullopt;
}

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_STORED_ENUM_H_
