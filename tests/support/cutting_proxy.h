// Stands between a client and PostgreSQL's Unix socket, and loses one answer.
#ifndef ROWPROOF_TESTS_SUPPORT_CUTTING_PROXY_H_
#define ROWPROOF_TESTS_SUPPORT_CUTTING_PROXY_H_

#include <atomic>
#include <string>
#include <thread>
#include <vector>

namespace rowproof::testing {

// Passes bytes on both ways; where the server first says that a transaction was committed, the
// client's connection ends instead of hearing it. Ends with its last connection: declared before
// what connects to it.
class CuttingProxy {
 public:
  // A socket in a new folder in front of the one in `server_folder`.
  explicit CuttingProxy(const std::string& server_folder);
  ~CuttingProxy();
  CuttingProxy(const CuttingProxy&) = delete;
  CuttingProxy& operator=(const CuttingProxy&) = delete;

  const std::string& folder() const { return folder_; }
  bool has_cut() const { return has_cut_; }

 private:
  void Listen();
  void Pass(int client);

  const std::string server_folder_;
  std::string folder_;
  int listening_ = -1;
  std::atomic<bool> has_cut_{false};
  std::vector<std::thread> connections_;
  std::thread listener_;
};

}  // namespace rowproof::testing

#endif  // ROWPROOF_TESTS_SUPPORT_CUTTING_PROXY_H_
