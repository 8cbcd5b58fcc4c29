// Finds the paths of a request's fields for the domain's own field names. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_FIELD_PATHS_H_
#define ROWPROOF_SERVICES_RPC_FIELD_PATHS_H_

#include <google/protobuf/message.h>

#include <string>

#include "absl/status/status.h"

namespace rowproof::rpc {

// The path of `path` in `request`. Fields that the domain names and the API has elsewhere are found
// like this:
// - a field that a message lacks is searched for in the member of its oneof that is set
//   ("design.cells" is "design.chart.cells");
// - an entry named by its enum is the entry that has it ("yarns[C].name" is "yarns[2].yarn.name",
//   "stitches[sl st].count" is "stitches[1].count"; the list itself if no entry has it);
// - an index into bytes is left out.
// Any other path is returned as it is.
std::string PathIn(const google::protobuf::Message& request, const std::string& path);

// The same status, with the path in `request` of every field that it names.
absl::Status InRequest(const absl::Status& status, const google::protobuf::Message& request);

// Whether every step of `path` is a field of `descriptor`, only repeated fields have an index, and
// only messages have fields below them.
bool IsPathOf(const google::protobuf::Descriptor& descriptor, const std::string& path);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_FIELD_PATHS_H_
