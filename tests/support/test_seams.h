// Clock, identifiers, sleeper and observer of what is under test.
#ifndef ROWPROOF_TESTS_SUPPORT_TEST_SEAMS_H_
#define ROWPROOF_TESTS_SUPPORT_TEST_SEAMS_H_

#include <atomic>
#include <chrono>
#include <mutex>
#include <string>
#include <vector>

#include "services/domain/clock.h"
#include "services/domain/identifiers.h"
#include "storage/database/database.h"

namespace rowproof::testing {

// Stands still until it is set. Thread-safe.
class StillClock : public Clock {
 public:
  Moment Now() override { return MomentOf(micros_); }
  void Set(Moment now) { micros_ = Micros(now); }
  void Advance(std::chrono::microseconds by) { micros_ += by.count(); }

 private:
  std::atomic<int64_t> micros_{1'767'225'600'000'000};  // 2026-01-01T00:00:00Z
};

// id1, id2 and rp_secret3: each number once. Thread-safe.
class NumberedIdentifiers : public IdentifierSource {
 public:
  std::string NewIdentifier() override { return "id" + std::to_string(++count_); }
  std::string NewSecret() override { return "rp_secret" + std::to_string(++count_); }

 private:
  std::atomic<int> count_{0};
};

// Returns at once and counts. Thread-safe.
class CountingSleeper : public Sleeper {
 public:
  void SleepUntil(std::chrono::steady_clock::time_point until) override {
    ++count_;
    const auto end = until.time_since_epoch().count();
    auto latest = latest_end_.load();
    while (latest < end && !latest_end_.compare_exchange_weak(latest, end)) {
    }
  }
  int count() const { return count_; }
  // When the last of the sleeps would have ended.
  std::chrono::steady_clock::time_point latest_end() const {
    return std::chrono::steady_clock::time_point(std::chrono::steady_clock::duration(latest_end_));
  }

 private:
  std::atomic<int> count_{0};
  std::atomic<std::chrono::steady_clock::rep> latest_end_{0};
};

// What failed, in order. Thread-safe.
class RecordingObserver : public storage::DatabaseObserver {
 public:
  struct Entry {
    std::string transaction;
    std::string sqlstate;
    std::string constraint;
    bool again = false;
    bool operator==(const Entry&) const = default;
  };
  struct UnreadableEntry {
    std::string table;
    std::string column;
    std::string field;
    std::string resource;
    bool operator==(const UnreadableEntry&) const = default;
  };
  void Failed(const char* transaction, const std::string& sqlstate, const std::string& constraint,
              bool again) override {
    const std::lock_guard lock(mutex_);
    entries_.push_back({transaction, sqlstate, constraint, again});
  }
  void Unreadable(const char*, const std::string& table, const std::string& column,
                  const std::string& field, const std::string& resource) override {
    const std::lock_guard lock(mutex_);
    unreadable_.push_back({table, column, field, resource});
  }
  std::vector<UnreadableEntry> unreadable() {
    const std::lock_guard lock(mutex_);
    return unreadable_;
  }
  std::vector<Entry> entries() {
    const std::lock_guard lock(mutex_);
    return entries_;
  }

 private:
  std::mutex mutex_;
  std::vector<Entry> entries_;
  std::vector<UnreadableEntry> unreadable_;
};

}  // namespace rowproof::testing

#endif  // ROWPROOF_TESTS_SUPPORT_TEST_SEAMS_H_
