// The gates of a release: what has to be settled before a version is published. Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RELEASES_GATES_H_
#define ROWPROOF_SERVICES_DOMAIN_RELEASES_GATES_H_

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"

namespace rowproof::releases {

enum class GateCode : uint8_t {
  kChartWorkable,
  kTextEqualsChart,
  kErrataDecided,
  kSizesTested,
  kPredictionsReconciled,
};
inline constexpr size_t kGates = 5;

inline constexpr size_t kShortestReason = 10;  // bytes, blanks at the ends not counted
inline constexpr size_t kLongestReason = 2'000;
// Whether the text is long enough for a reason, of passing a gate over or of withdrawing a release.
bool IsReason(std::string_view text);

struct SizeFacts {
  std::string size;              // its name
  int finished_testers = 0;      // who worked this size to its end in a version that reads the same
  int64_t text_differences = 0;  // differences between the designer's text and the chart
  // If this size needs another number of testers than the rest; at least 0.
  std::optional<int> testers_required = std::nullopt;
};

struct GateFacts {
  int64_t workability_errors = 0;
  // False: the rows are written from the chart, and equal it by construction.
  bool has_designer_text = false;
  // False: a designer's text is there, but was not compared with the chart.
  bool text_compared = false;
  // Errors of that comparison, rows that could not be read included.
  int64_t text_errors = 0;
  int64_t errata_undecided = 0;
  int testers_required = 2;  // for each size, at least 0
  bool has_call = false;     // if false, no tester is counted
  std::vector<SizeFacts> sizes;
  // Quantities for which reports have not been reconciled with the prediction, every yarn that the
  // pattern takes among those asked for: "yarn C", "width".
  std::vector<std::string> quantities_unreconciled;
};

enum class GateState : uint8_t { kOpen, kMet, kPassedOver };

struct Gate {
  GateCode code = GateCode::kChartWorkable;
  GateState state = GateState::kOpen;
  std::string sentence;  // what holds, or what is missing
  std::string reason;    // of passing over, in the designer's words; else empty
  bool operator==(const Gate&) const = default;
};

struct Waiver {
  GateCode code = GateCode::kChartWorkable;
  std::string reason;
  bool operator==(const Waiver&) const = default;
};

// All kGates gates in the order of GateCode, each open or met.
std::vector<Gate> EvaluateGates(const GateFacts& facts);

// The gates as the release records them: an open gate with a waiver is passed over; a waiver for a
// gate that is met is dropped. INVALID_ARGUMENT "waivers[1].reason": too short, too long, control
// characters; "waivers[1].code": waived twice.
absl::StatusOr<std::vector<Gate>> PassOver(std::vector<Gate> gates,
                                           const std::vector<Waiver>& waivers);

// OK if no gate stays open. As PassOver, and FAILED_PRECONDITION with one condition for each
// open gate (type "CHART_WORKABLE", ...; subject the gate's code).
absl::Status MayPublish(const std::vector<Gate>& gates, const std::vector<Waiver>& waivers);

// Stable code: "chart-workable", "text-equals-chart", "errata-decided", "sizes-tested",
// "predictions-reconciled".
const char* CodeName(GateCode code);
const char* Name(GateState state);  // "open", "met", "passed-over"

}  // namespace rowproof::releases

#endif  // ROWPROOF_SERVICES_DOMAIN_RELEASES_GATES_H_
