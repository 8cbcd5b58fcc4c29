#include "services/server/log_writer.h"

#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <thread>
#include <utility>

#include "absl/time/clock.h"
#include "absl/time/time.h"
#include "fmt/format.h"

namespace rowproof::server {
namespace {

std::string DroppedLine(int64_t count) {
  // As logs.cc has spdlog write times.
  return fmt::format("{} warning log dropped={}\n",
                     absl::FormatTime("%Y-%m-%dT%H:%M:%E6SZ", absl::Now(), absl::UTCTimeZone()),
                     count);
}

}  // namespace

LogWriter& LogWriter::ToStandardError() {
  static LogWriter& writer = *new LogWriter(STDERR_FILENO);
  return writer;
}

LogWriter::LogWriter(int file) : file_(file) {
  std::thread([this] { Run(); }).detach();
}

void LogWriter::Write(std::string line) {
  const std::lock_guard lock(mutex_);
  if (waiting_bytes_ + line.size() > kMostWaiting) {
    ++dropped_;
    return;
  }
  waiting_bytes_ += line.size();
  waiting_.push_back(std::move(line));
  if (!writing_) changed_.notify_all();
}

void LogWriter::Flush(std::chrono::milliseconds longest) {
  std::unique_lock lock(mutex_);
  changed_.wait_for(lock, longest, [this] { return waiting_.empty() && !writing_; });
}

void LogWriter::Run() {
  std::unique_lock lock(mutex_);
  for (;;) {
    changed_.wait(lock, [this] { return !waiting_.empty(); });
    writing_ = true;
    while (!waiting_.empty()) {
      const std::string line = std::move(waiting_.front());
      waiting_.pop_front();
      waiting_bytes_ -= line.size();
      lock.unlock();
      const bool written = WriteWhole(line);
      lock.lock();
      if (!written) {
        ++dropped_;
      } else if (dropped_ > 0 && waiting_.empty()) {
        // Those that still wait were logged before those that were dropped.
        const int64_t dropped = std::exchange(dropped_, 0);
        lock.unlock();
        const bool said = WriteWhole(DroppedLine(dropped));
        lock.lock();
        if (!said) dropped_ += dropped;
      }
    }
    writing_ = false;
    changed_.notify_all();
  }
}

bool LogWriter::WriteWhole(const std::string& text) const {
  size_t done = 0;
  while (done < text.size()) {
    const ssize_t written = write(file_, text.data() + done, text.size() - done);
    if (written >= 0) {
      done += static_cast<size_t>(written);
    } else if (errno == EAGAIN) {  // whoever shares the file may have asked for that
      pollfd ready{file_, POLLOUT, 0};
      poll(&ready, 1, -1);
    } else if (errno != EINTR) {
      return false;
    }
  }
  return true;
}

}  // namespace rowproof::server
