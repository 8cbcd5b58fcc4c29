// One call on a channel, of any method, by the generated descriptors.
#ifndef ROWPROOF_SERVICES_CLIENT_EXCHANGE_H_
#define ROWPROOF_SERVICES_CLIENT_EXCHANGE_H_

#include <grpcpp/channel.h>

#include <functional>
#include <memory>
#include <string>

#include "google/protobuf/descriptor.h"
#include "google/protobuf/message.h"

namespace rowproof::client {

using TakeMessage = std::function<void(const google::protobuf::Message&)>;

// Whether a call may be sent twice: a get or list, or a request with a request_id.
bool MayBeRepeated(const google::protobuf::MethodDescriptor& method,
                   const google::protobuf::Message& request);

struct Exchange {
  std::shared_ptr<grpc::Channel> channel;
  std::string token;           // empty: none is sent
  double timeout_seconds = 0;  // for all tries together; 0: no deadline

  // Shows progress on a terminal once a second has passed.
  grpc::Status Run(const google::protobuf::MethodDescriptor& method,
                   const google::protobuf::Message& request, const TakeMessage& take) const;
};

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_EXCHANGE_H_
