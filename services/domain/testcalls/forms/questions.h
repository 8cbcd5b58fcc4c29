// The questions of the fill-in form and their labels. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_QUESTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_QUESTIONS_H_

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "services/domain/estimate/materials.h"

namespace rowproof::testcalls {

enum class Question : uint8_t {
  kSeat,
  kVersion,
  kSize,
  kFirstRowNumber,
  kWorkedFrom,
  kHand,
  kTerms,
  kHook,
  kEnds,
  kGaugeBefore,
  kGaugeAfter,
  kHowBlocked,
  kWidthBefore,
  kHeightBefore,
  kWidthAfter,
  kHeightAfter,
  kTapeStep,
  kTime,
  kLastRow,
  kFinished,
  kRemarks,
  kEnd,  // ends the form; not a question
  // A section that may be repeated: kErratum begins it.
  kErratum,
  kErratumRow,
  kErratumStitches,
  kErratumCountedFrom,
  kErratumSeenIn,
  kErratumKind,
  kErratumWas,
  kErratumShouldBe,
  kErratumNote,
  // Asked for each yarn: "yarn A name", ..., "yarn H name", "border yarn name".
  kYarnName,
  kYarnFibre,
  kYarnWeightClass,
  kYarnWraps,
  kYarnBall,
  kYarnLength,
  kYarnLengthStep,
  kYarnWeightBefore,
  kYarnWeightAfter,
  kYarnScaleStep,
  kYarnWithSwatch,
  kYarnWithBorder,
};

inline bool IsOfErratum(Question q) { return q > Question::kErratum && q < Question::kYarnName; }
inline bool IsOfYarn(Question q) { return q >= Question::kYarnName; }
// Answered in the tester's own words: any text may follow.
bool IsFreeText(Question question);
// May be answered several times; each answer counts.
bool IsRepeated(Question question);

struct Label {
  Question question = Question::kEnd;
  estimate::YarnColour colour = estimate::YarnColour::kA;  // of a yarn question, else kA
  auto operator<=>(const Label&) const = default;
};

// "hook", "yarn A weight before".
std::string LabelText(const Label& label);
// By its text, in small letters with single blanks; absent if no label has it.
std::optional<Label> FindLabel(std::string_view text);
// The label that was probably meant: one or two letters off, from five letters on.
std::optional<Label> FindSimilarLabel(std::string_view text);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_QUESTIONS_H_
