// Every file of the API as its generated code describes it.
#ifndef ROWPROOF_TESTS_RPC_DECLARED_API_H_
#define ROWPROOF_TESTS_RPC_DECLARED_API_H_

#include <google/protobuf/descriptor.h>
#include <google/protobuf/descriptor.pb.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/support/source_folder.h"

namespace rowproof::rpc {

// In the order of their names. A file of proto/rowproof/v1 whose code is not linked is a failure.
inline std::vector<const google::protobuf::FileDescriptor*> DeclaredFiles() {
  const std::filesystem::path root(InSources("proto"));
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(root / "rowproof" / "v1")) {
    if (entry.path().extension() == ".proto") {
      names.push_back(std::filesystem::relative(entry.path(), root).string());
    }
  }
  std::sort(names.begin(), names.end());
  std::vector<const google::protobuf::FileDescriptor*> files;
  for (const std::string& name : names) {
    const auto* file = google::protobuf::DescriptorPool::generated_pool()->FindFileByName(name);
    EXPECT_NE(file, nullptr) << name;
    if (file != nullptr) files.push_back(file);
  }
  EXPECT_FALSE(files.empty());
  return files;
}

}  // namespace rowproof::rpc

#endif  // ROWPROOF_TESTS_RPC_DECLARED_API_H_
