// Writes the log without letting anybody wait for who reads it.
#ifndef ROWPROOF_SERVICES_SERVER_LOG_WRITER_H_
#define ROWPROOF_SERVICES_SERVER_LOG_WRITER_H_

#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <mutex>
#include <string>

namespace rowproof::server {

// Writes lines to a file in a thread of its own. While nobody reads the file's other end, or it
// cannot be written, lines are dropped and counted; once it can be written again, a line "log
// dropped=N" says so. Thread-safe. Lives as long as the process, since its thread may never come
// back from a write.
class LogWriter {
 public:
  // Most bytes that wait to be written.
  static constexpr size_t kMostWaiting = 256 * 1024;

  static LogWriter& ToStandardError();

  // Never waits for the file.
  void Write(std::string line);
  // Waits until everything is written, at most this long.
  void Flush(std::chrono::milliseconds longest);

 private:
  explicit LogWriter(int file);
  void Run();
  bool WriteWhole(const std::string& text) const;

  const int file_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::deque<std::string> waiting_;
  size_t waiting_bytes_ = 0;
  int64_t dropped_ = 0;
  bool writing_ = false;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_LOG_WRITER_H_
