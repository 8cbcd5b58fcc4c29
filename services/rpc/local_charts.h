// ChartService inside this process, for programs that work on a file without a server.
#ifndef ROWPROOF_SERVICES_RPC_LOCAL_CHARTS_H_
#define ROWPROOF_SERVICES_RPC_LOCAL_CHARTS_H_

#include <grpcpp/channel.h>

#include <memory>

namespace rowproof::rpc {

// Listens on nothing. The channel works while this lives.
class LocalCharts {
 public:
  LocalCharts();
  ~LocalCharts();
  LocalCharts(const LocalCharts&) = delete;
  LocalCharts& operator=(const LocalCharts&) = delete;

  std::shared_ptr<grpc::Channel> channel() const;

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

// Largest request that any of our servers reads: a file of 16 MB and the fields around it.
inline constexpr int kLargestRequestBytes = 20 * 1024 * 1024;
// Largest answer: a drawing or a sheet.
inline constexpr int kLargestAnswerBytes = 64 * 1024 * 1024;

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_LOCAL_CHARTS_H_
