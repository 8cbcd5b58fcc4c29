#include "services/rpc/local_charts.h"

#include <grpcpp/server.h>
#include <grpcpp/server_builder.h>
#include <grpcpp/support/channel_arguments.h>

#include "services/rpc/charts/chart_service.h"
#include "services/rpc/dispatcher.h"

namespace rowproof::rpc {
namespace {

class NoObserver : public RequestObserver {
 public:
  void Served(const ServedRequest&) override {}
};

}  // namespace

struct LocalCharts::Parts {
  NoObserver observer;
  Dispatcher dispatcher{observer};
  usecases::CalibrationLookup lookup;  // empty: nothing is kept here
  std::unique_ptr<Service> charts = MakeChartService(dispatcher, lookup);
  std::unique_ptr<grpc::Server> server;
};

LocalCharts::LocalCharts() : parts_(std::make_unique<Parts>()) {
  grpc::ServerBuilder builder;
  builder.RegisterService(parts_->charts.get());
  builder.SetMaxReceiveMessageSize(kLargestRequestBytes);
  builder.SetMaxSendMessageSize(kLargestAnswerBytes);
  parts_->server = builder.BuildAndStart();
}

LocalCharts::~LocalCharts() { parts_->server->Shutdown(); }

std::shared_ptr<grpc::Channel> LocalCharts::channel() const {
  grpc::ChannelArguments arguments;
  arguments.SetMaxReceiveMessageSize(kLargestAnswerBytes);
  arguments.SetMaxSendMessageSize(kLargestRequestBytes);
  return parts_->server->InProcessChannel(arguments);
}

}  // namespace rowproof::rpc
