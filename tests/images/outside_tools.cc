#include "tests/images/outside_tools.h"

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "gtest/gtest.h"

namespace rowproof::images {
namespace {

// A folder of this call's own, removed at its end.
class Folder {
 public:
  Folder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "rowproof-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) ADD_FAILURE() << "no temporary folder";
    path_ = pattern;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

std::string ReadAll(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace

std::string Output(const std::string& command, std::string_view input) {
  const Folder folder;
  std::ofstream(folder.path() + "/in", std::ios::binary) << input;
  const std::string full = "cd '" + folder.path() + "' && { " + command + "; } < in > out 2> said";
  const int status = std::system(full.c_str());
  if (status == -1 || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    ADD_FAILURE() << command << " ended with status " << status << ": "
                  << ReadAll(folder.path() + "/said");
    return {};
  }
  return ReadAll(folder.path() + "/out");
}

}  // namespace rowproof::images
