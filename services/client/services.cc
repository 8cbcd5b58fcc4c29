#include "services/client/services.h"

#include <algorithm>
#include <sstream>
#include <string>

namespace rowproof::client {

std::vector<const google::protobuf::ServiceDescriptor*> Services() {
  std::vector<const google::protobuf::ServiceDescriptor*> services;
  // The build names the files: a pool of descriptors cannot be asked for all it holds.
  std::istringstream stems(ROWPROOF_SERVICE_FILES);
  for (std::string stem; std::getline(stems, stem, ',');) {
    const auto* file = google::protobuf::DescriptorPool::generated_pool()->FindFileByName(
        "rowproof/v1/" + stem + ".proto");
    for (int i = 0; file != nullptr && i < file->service_count(); ++i) {
      services.push_back(file->service(i));
    }
  }
  std::sort(services.begin(), services.end(),
            [](const auto* a, const auto* b) { return a->name() < b->name(); });
  return services;
}

}  // namespace rowproof::client
