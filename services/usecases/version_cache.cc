#include "services/usecases/version_cache.h"

namespace rowproof::usecases {
namespace {

// For names and other short fields, besides the chart and the texts.
constexpr size_t kBesideTheChart = 4096;

size_t BytesOf(const patterns::VersionContent& content) {
  const chart::Grid& cells = content.design.cells;
  return kBesideTheChart +
         static_cast<size_t>(cells.rows()) * cells.words_per_row() * sizeof(uint64_t) +
         content.design.picture_colours.size() * sizeof(chart::Colour) +
         content.introduction.size() + content.notes.size() + content.finishing.size() +
         content.designer_text.size();
}

}  // namespace

KeptVersion VersionCache::Find(const PatternId& pattern, int number) {
  const std::lock_guard lock(mutex_);
  const auto found = places_.find({pattern.value, number});
  if (found == places_.end()) return nullptr;
  entries_.splice(entries_.begin(), entries_, found->second);
  return found->second->content;
}

void VersionCache::Keep(const PatternId& pattern, int number, KeptVersion content) {
  Entry entry{{pattern.value, number}, BytesOf(*content), std::move(content)};
  if (entry.bytes > most_bytes_) return;
  const std::lock_guard lock(mutex_);
  if (places_.contains(entry.key)) return;
  bytes_ += entry.bytes;
  entries_.push_front(std::move(entry));
  places_.emplace(entries_.front().key, entries_.begin());
  while (bytes_ > most_bytes_) {
    bytes_ -= entries_.back().bytes;
    places_.erase(entries_.back().key);
    entries_.pop_back();
  }
}

}  // namespace rowproof::usecases
