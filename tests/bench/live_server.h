// Programs that a benchmark starts: a rowproofd with a private PostgreSQL, and others beside it.
#ifndef ROWPROOF_TESTS_BENCH_LIVE_SERVER_H_
#define ROWPROOF_TESTS_BENCH_LIVE_SERVER_H_

#include <grpcpp/channel.h>
#include <sys/types.h>

#include <memory>
#include <string>
#include <vector>

namespace rowproof::bench {

// A program in the background, ended with SIGTERM. One thread at a time.
class Program {
 public:
  // Throws std::runtime_error where it cannot be started. Its output is appended to `log_file`.
  Program(const std::vector<std::string>& arguments, const std::string& log_file);
  ~Program();
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  // The first line of a file that the program writes once it serves. Throws where it ends before,
  // or takes over a minute.
  std::string AddressFrom(const std::string& file);

 private:
  bool Ended();
  pid_t child_ = 0;
};

// A channel with a connection of its own.
std::shared_ptr<grpc::Channel> OwnChannel(const std::string& address);

// A new folder that other users may enter, removed with all that is in it.
class TemporaryFolder {
 public:
  TemporaryFolder();
  ~TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

// A rowproofd of `programs` in a folder of its own, which is removed in the end; a designer is
// there.
class LiveServer {
 public:
  explicit LiveServer(const std::string& programs);
  LiveServer(const LiveServer&) = delete;
  LiveServer& operator=(const LiveServer&) = delete;

  const std::string& address() const { return address_; }
  const std::string& designer_token() const { return designer_token_; }
  // libpq connection string of its database.
  std::string connection() const;
  const std::string& folder() const { return folder_.path(); }

 private:
  const TemporaryFolder folder_;  // goes last
  std::unique_ptr<Program> program_;
  std::string address_;
  std::string designer_token_;
};

}  // namespace rowproof::bench

#endif  // ROWPROOF_TESTS_BENCH_LIVE_SERVER_H_
