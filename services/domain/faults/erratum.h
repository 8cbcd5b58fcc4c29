// One erratum as a tester reports it, what the designer decides on it, and what other testers say.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_FAULTS_ERRATUM_H_
#define ROWPROOF_SERVICES_DOMAIN_FAULTS_ERRATUM_H_

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/domain/chart/design.h"
#include "services/domain/clock.h"
#include "services/domain/identifiers.h"

namespace rowproof::faults {

inline constexpr size_t kLongestErratumText = 500;     // bytes of UTF-8: was, should_be, remark
inline constexpr size_t kLongestDecisionNote = 2'000;  // bytes of UTF-8

enum class ErratumKind : uint8_t {
  kStitch,       // a stitch is wrong or cannot be worked
  kCount,        // a row's stitch count does not add up
  kColour,       // a row's colour
  kSide,         // RS and WS
  kRepeat,       // a repeat does not close, or too many or few repetitions
  kMaterials,    // yarn, hook, amounts
  kMeasurement,  // gauge, finished size
  kOther,
};
inline constexpr size_t kErratumKinds = 8;

enum class SeenIn : uint8_t { kChart, kText, kBoth, kElsewhere };

// Where a maker began to count stitches: at the edge of the chart's stitch 1, or where the row
// starts for that maker's hand.
enum class CountedFrom : uint8_t { kStitchOne, kRowStart };

struct Erratum {
  int row = 0;           // worked row of the seat's size, from 1; 0: no row is concerned
  int first_stitch = 0;  // as counted from `counted_from`, from 1; 0: the whole row
  int last_stitch = 0;   // 0 with first_stitch, else first_stitch or more
  CountedFrom counted_from = CountedFrom::kStitchOne;
  SeenIn seen_in = SeenIn::kElsewhere;
  ErratumKind kind = ErratumKind::kOther;
  std::string was;
  std::string should_be;
  std::string remark;
  bool operator==(const Erratum&) const = default;
};

// INVALID_ARGUMENT with the path below `field` ("errata[2].row"): a row past the size's worked
// rows, stitches past its stitches, out of order or without a row; a text too long or with control
// characters; an erratum that says nothing (no row, and no text). `size` indexes design.sizes.
absl::Status ValidateErratum(const Erratum& erratum, const chart::Design& design, int size,
                             const std::string& field);

struct StitchRange {
  int first = 0;  // the chart's numbers, first <= last; 0 and 0: the whole row
  int last = 0;
  bool operator==(const StitchRange&) const = default;
};

// The chart's number of a stitch counted by a maker in a worked row (both from 1). The stitch must
// be within the size.
int ChartStitch(const chart::Design& design, int size, int row, int counted, CountedFrom from,
                chart::Hand hand);
// The same for an erratum, which must be valid. Numbers are those of the expanded size.
StitchRange ChartStitches(const chart::Design& design, int size, const Erratum& erratum,
                          chart::Hand hand);

enum class ErratumState : uint8_t { kOpen = 1, kAccepted = 2, kDeclined = 3 };

struct ErratumDecision {
  ErratumState state = ErratumState::kOpen;
  std::string note;  // the designer's words to the testers
  bool operator==(const ErratumDecision&) const = default;
};

// The designer's decision. It can be changed, but not repeated: FAILED_PRECONDITION (ERRATUM_STATE)
// if the erratum is in that state already. INVALID_ARGUMENT "note": too long, control characters;
// declining and reopening need one. `name` is the erratum's resource name.
absl::StatusOr<ErratumDecision> Accept(const ErratumDecision& now, const std::string& note,
                                       const std::string& name);
absl::StatusOr<ErratumDecision> Decline(const ErratumDecision& now, const std::string& note,
                                        const std::string& name);
absl::StatusOr<ErratumDecision> Reopen(const ErratumDecision& now, const std::string& note,
                                       const std::string& name);

// What another tester says of a listed erratum; a later word of the same tester replaces it.
enum class Confirmation : uint8_t { kMetItToo = 1, kWorkedItRight = 2 };

struct ConfirmationFacts {
  bool reported_it = false;  // the tester's own report holds this erratum
  int erratum_row = 0;       // worked row of the tester's size; 0: no row is concerned
  int last_row = 0;          // last row that the tester reported as worked
};
// FAILED_PRECONDITION: their own erratum (OWN_ERRATUM), or a row that they have not reached
// (ROW_NOT_REACHED).
absl::Status MayConfirm(const ConfirmationFacts& facts, const std::string& name);

struct ConfirmationRecord {
  SeatId seat;
  Confirmation confirmation = Confirmation::kMetItToo;
  Moment confirmed_at;
};

struct ErratumRecord {
  PatternId pattern;
  CallId call;
  ErratumId id;
  SeatId seat;
  std::string size;        // the seat's
  int first_report = 0;    // number of the revision that first reported it
  int last_report = 0;     // and of the newest that does
  int version_number = 0;  // that last_report was worked from: entry.row counts in its rows
  Erratum entry;           // as last_report says it
  // Row of the chart as drawn, from 1; 0: no row. Stitches of the expanded size; 0: the whole row.
  int chart_row = 0;
  StitchRange stitches;
  bool withdrawn = false;  // the seat's newest report no longer holds it
  ErratumDecision decision;
  std::optional<Moment> decided_at;
  Moment listed_at;
  std::vector<ConfirmationRecord> confirmations;  // by seat
};

struct ErrataFilter {
  std::optional<ErratumState> state;
  bool withdrawn_too = false;
};

// Stable names; Parse: false if there is none of that name.
const char* Name(ErratumKind kind);  // "stitch", "count", "colour", "side", "repeat", "materials",
                                     // "measurement", "other"
const char* Name(SeenIn seen_in);    // "chart", "text", "both", "elsewhere"
const char* Name(CountedFrom from);  // "stitch 1", "row start"
const char* Name(ErratumState state);         // "open", "accepted", "declined"
const char* Name(Confirmation confirmation);  // "met-it-too", "worked-it-right"
bool ParseErratumKind(const std::string& name, ErratumKind* kind);

}  // namespace rowproof::faults

#endif  // ROWPROOF_SERVICES_DOMAIN_FAULTS_ERRATUM_H_
