#include "services/domain/sheets/errata_entries.h"

#include <algorithm>
#include <tuple>

#include "fmt/format.h"
#include "services/domain/testcalls/report.h"

namespace rowproof::sheets {
namespace {

const char* Section(const faults::Erratum& erratum) {
  if (erratum.row > 0) return "Rows";
  if (erratum.kind == faults::ErratumKind::kMaterials) return "Materials";
  if (erratum.kind == faults::ErratumKind::kMeasurement) return "Sizes";
  return "";
}

const char* FoundIn(faults::SeenIn seen_in) {
  switch (seen_in) {
    case faults::SeenIn::kChart:
      return "chart";
    case faults::SeenIn::kText:
      return "written rows";
    case faults::SeenIn::kBoth:
      return "chart and written rows";
    case faults::SeenIn::kElsewhere:
      return "elsewhere";
  }
  return "";
}

// Two reports of one fault: the place that holds both, and the longer of the two texts.
void Join(ErrataEntry& entry, const ErrataEntry& other) {
  if (entry.first_stitch == 0 || other.first_stitch == 0) {
    entry.first_stitch = 0;
    entry.last_stitch = 0;
  } else {
    entry.first_stitch = std::min(entry.first_stitch, other.first_stitch);
    entry.last_stitch = std::max(entry.last_stitch, other.last_stitch);
  }
  if (entry.sizes != other.sizes &&
      (", " + entry.sizes + ",").find(", " + other.sizes + ",") == std::string::npos) {
    entry.sizes += ", " + other.sizes;
  }
  if (entry.was.empty()) entry.was = other.was;
  if (entry.should_be.empty()) entry.should_be = other.should_be;
  if (entry.found_in != other.found_in) entry.found_in = FoundIn(faults::SeenIn::kBoth);
  if (entry.note.empty()) entry.note = other.note;
}

// "L, S" of a design with sizes S and L.
bool InEverySize(const std::string& names, const std::vector<chart::Size>& sizes) {
  return std::all_of(sizes.begin(), sizes.end(), [&](const chart::Size& size) {
    return (", " + names + ",").find(", " + size.name + ",") != std::string::npos;
  });
}

ErrataEntry EntryOf(const faults::ErratumRecord& row, patterns::Readings& readings) {
  ErrataEntry entry;
  entry.version = row.version_number;
  entry.section = Section(row.entry);
  // What no row is concerned by holds for every size.
  if (row.entry.row > 0) entry.sizes = row.size;
  entry.row = row.entry.row;
  entry.first_stitch = row.stitches.first;
  entry.last_stitch = row.stitches.last;
  entry.was = row.entry.was;
  entry.should_be = row.entry.should_be;
  entry.found_in = FoundIn(row.entry.seen_in);
  entry.note = row.decision.note;
  const int size = testcalls::SizeIndex(readings.present(), row.size);
  if (entry.row == 0 || size < 0) return entry;
  const auto place = readings.InPresent(row.size, row.version_number, {entry.row, 0, 0});
  if (place.has_value() && readings.SameAsMet(row.entry.seen_in, size, place->row,
                                              row.version_number, readings.present_version())) {
    entry.note += fmt::format("{}The row still reads this way in version {}.",
                              entry.note.empty() ? "" : " ", readings.present_version());
  }
  return entry;
}

}  // namespace

std::vector<ErrataEntry> AcceptedEntries(const std::vector<faults::ErratumRecord>& errata,
                                         const std::map<std::string, size_t>& cluster_of,
                                         patterns::Readings& readings) {
  std::map<std::tuple<size_t, int, int>, ErrataEntry> entries;
  for (const faults::ErratumRecord& row : errata) {
    if (row.decision.state != faults::ErratumState::kAccepted) continue;
    ErrataEntry entry = EntryOf(row, readings);
    const auto key = std::make_tuple(cluster_of.at(row.id.value), entry.version, entry.row);
    const auto [found, added] = entries.emplace(key, entry);
    if (!added) Join(found->second, entry);
  }
  const auto& sizes = readings.present().sizes;
  std::vector<ErrataEntry> list;
  for (auto& [key, entry] : entries) {
    if (InEverySize(entry.sizes, sizes)) entry.sizes.clear();
    list.push_back(std::move(entry));
  }
  return list;
}

}  // namespace rowproof::sheets
