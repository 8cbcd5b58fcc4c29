// The services of the API that this program was built with.
#ifndef ROWPROOF_SERVICES_CLIENT_SERVICES_H_
#define ROWPROOF_SERVICES_CLIENT_SERVICES_H_

#include <vector>

#include "google/protobuf/descriptor.h"

namespace rowproof::client {

// By name.
std::vector<const google::protobuf::ServiceDescriptor*> Services();

}  // namespace rowproof::client

#endif  // ROWPROOF_SERVICES_CLIENT_SERVICES_H_
