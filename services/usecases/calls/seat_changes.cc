#include "services/usecases/calls/seat_changes.h"

#include <map>
#include <tuple>

#include "services/domain/patterns/carrying.h"
#include "services/domain/patterns/readings.h"
#include "services/domain/status_macros.h"
#include "services/domain/testcalls/report.h"
#include "services/usecases/calls/test_calls.h"
#include "services/usecases/transactions.h"
#include "storage/patterns.h"
#include "storage/test_calls.h"

namespace rowproof::usecases {
namespace {

// The version that testers without a report are taken to work from: the one sent before.
int VersionSentBefore(const std::vector<testcalls::SentVersion>& sent, int present) {
  int before = present;
  for (const auto& version : sent) {
    if (version.number != present) before = version.number;
  }
  return before;
}

// Contents and differences that many seats share.
class Comparer {
 public:
  Comparer(Application& application, storage::Transaction& transaction, const PatternId& pattern,
           const Stop& stop)
      : application_(application), transaction_(transaction), pattern_(pattern), stop_(stop) {}

  const chart::Design& Design(int version) { return Content(version).design; }

  const patterns::SizeDifference& Difference(int from, int to, int old_size, int new_size) {
    const auto key = std::make_tuple(from, to, old_size);
    auto found = differences_.find(key);
    if (found == differences_.end()) {
      found = differences_
                  .emplace(key, patterns::CompareSize(Design(from), old_size, Design(to), new_size,
                                                      stop_))
                  .first;
      // A version that brings a text for the first time, or drops it, is compared by its chart.
      if (HasText(from) && HasText(to)) {
        patterns::MarkTextChanges(Text(from), Text(to), found->second);
      }
    }
    return found->second;
  }

 private:
  const patterns::VersionContent& Content(int version) {
    auto found = contents_.find(version);
    if (found == contents_.end()) {
      found = contents_.emplace(version, LoadContent(application_, transaction_, pattern_, version))
                  .first;
    }
    return *found->second;
  }

  bool HasText(int version) { return !Content(version).designer_text.empty(); }

  const rows::OwnRows& Text(int version) {
    const auto found = texts_.find(version);
    if (found != texts_.end()) return found->second;
    const patterns::VersionContent& content = Content(version);
    return texts_
        .try_emplace(version, content.design, content.designer_text, content.designer_text_terms,
                     content.row_style.colour_names)
        .first->second;
  }

  Application& application_;
  storage::Transaction& transaction_;
  const PatternId& pattern_;
  const Stop& stop_;
  std::map<int, KeptVersion> contents_;
  std::map<int, rows::OwnRows> texts_;
  std::map<std::tuple<int, int, int>, patterns::SizeDifference> differences_;
};

absl::Status FindChanges(Comparer& comparer, SeatChanges* changes) {
  const chart::Design& before = comparer.Design(changes->from_version);
  const chart::Design& after = comparer.Design(changes->to_version);
  const int old_size = testcalls::SizeIndex(before, changes->seat.size);
  const int new_size = testcalls::SizeIndex(after, changes->seat.size);
  // Only a seat that has ended may have a size that the present version lacks.
  if (old_size < 0 || new_size < 0) return absl::OkStatus();
  const int last_row = changes->seat.last_row;
  if (changes->from_version == changes->to_version) {
    changes->next_row = last_row < testcalls::WorkedRowCount(after, new_size) ? last_row + 1 : 0;
    return absl::OkStatus();
  }
  ASSIGN_OR_RETURN(auto around, patterns::ChangesFrom(
                                    comparer.Difference(changes->from_version, changes->to_version,
                                                        old_size, new_size),
                                    last_row));
  changes->behind = std::move(around.behind);
  changes->ahead = std::move(around.ahead);
  changes->next_row = around.next_row;
  return absl::OkStatus();
}

}  // namespace

KeptVersion LoadContent(Application& application, storage::Transaction& transaction,
                        const PatternId& pattern, int number) {
  if (auto kept = application.versions.Find(pattern, number)) return kept;
  auto kept = std::make_shared<const patterns::VersionContent>(
      storage::LoadVersionContent(transaction, pattern, number));
  application.versions.Keep(pattern, number, kept);
  return kept;
}

absl::StatusOr<std::vector<SeatChanges>> ChangesForSeats(
    Application& application, storage::Transaction& transaction, const PatternId& pattern,
    const CallId& id, int present_version, const std::vector<testcalls::SeatRecord>& seats,
    const Stop& stop) {
  const int sent_before =
      VersionSentBefore(storage::ListSentVersions(transaction, pattern, id), present_version);
  Comparer comparer(application, transaction, pattern, stop);
  std::vector<SeatChanges> found;
  for (const auto& seat : seats) {
    SeatChanges changes;
    changes.seat = seat;
    changes.from_version = seat.report_version != 0 ? seat.report_version : sent_before;
    changes.to_version = present_version;
    const absl::Status changed = FindChanges(comparer, &changes);
    if (stop.Now()) return stop.status();
    RETURN_IF_ERROR(changed);
    found.push_back(std::move(changes));
  }
  return found;
}

}  // namespace rowproof::usecases
