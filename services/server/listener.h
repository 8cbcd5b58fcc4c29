// The server's listening sockets, which are ours: gRPC's own end for good at the first connection
// for which the process has no file left.
#ifndef ROWPROOF_SERVICES_SERVER_LISTENER_H_
#define ROWPROOF_SERVICES_SERVER_LISTENER_H_

#include <atomic>
#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "absl/status/status.h"
#include "absl/status/statusor.h"
#include "services/server/configuration.h"

namespace rowproof::server {

// Most files that the process may have open become as many as the machine allows it.
void RaiseFileLimit();

// Accepts connections in a thread of its own and hands them on. It goes on whatever accept says.
// Connections beyond a number of open files are closed at once, so that the database, the log and
// those that are served have theirs. One thread at a time, except Answers().
class Listener {
 public:
  // Files that connections leave free, and most connections however many files there may be.
  static constexpr int kReserve = 256;
  static constexpr int kMostConnections = 10'000;

  // Listens at each address that the name has. INVALID_ARGUMENT of --listen with the system's
  // reason if it cannot.
  static absl::StatusOr<std::unique_ptr<Listener>> Open(const std::string& listen);
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  // As --listen, with the port that was chosen for 0.
  std::string address() const { return address_; }
  // `take` gets each connection, and closes it. Called once.
  void Start(std::function<void(int listening, int connection)> take);
  // Accepts nothing from now on.
  void Stop();

  // Whether a connection to itself is accepted within `longest`. It is not handed on.
  bool Answers(std::chrono::milliseconds longest);
  // Listens anew at the same address. For who finds that it does not answer.
  absl::Status Replace();

 private:
  Listener() = default;
  void Accept();
  void TakeFrom(int listening);

  ListenAddress place_;
  std::string address_;
  std::vector<int> sockets_;
  std::function<void(int, int)> take_;
  std::atomic<int64_t> accepted_ = 0;
  std::atomic<int> own_port_ = 0;  // of a connection of Answers(); 0: there is none
  std::atomic<bool> ending_ = false;
  int wake_ = -1;  // eventfd
  std::thread thread_;
};

}  // namespace rowproof::server

#endif  // ROWPROOF_SERVICES_SERVER_LISTENER_H_
