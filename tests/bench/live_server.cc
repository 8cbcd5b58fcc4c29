#include "tests/bench/live_server.h"

#include <fcntl.h>
#include <grpcpp/create_channel.h>
#include <grpcpp/security/credentials.h>
#include <spawn.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <thread>

#include "services/server/program.h"

extern char** environ;

namespace rowproof::bench {

Program::Program(const std::vector<std::string>& arguments, const std::string& log_file) {
  std::vector<char*> argv;
  for (const std::string& argument : arguments) argv.push_back(const_cast<char*>(argument.c_str()));
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, log_file.c_str(), O_WRONLY | O_CREAT | O_APPEND,
                                   0600);
  posix_spawn_file_actions_adddup2(&actions, 1, 2);
  const int failed = posix_spawn(&child_, argv.front(), &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failed != 0) throw std::runtime_error(arguments.front() + " cannot be started");
}

Program::~Program() {
  if (child_ == 0) return;
  kill(child_, SIGTERM);
  waitpid(child_, nullptr, 0);
}

bool Program::Ended() {
  if (child_ != 0 && waitpid(child_, nullptr, WNOHANG) == child_) child_ = 0;
  return child_ == 0;
}

std::string Program::AddressFrom(const std::string& file) {
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(60);
  while (std::chrono::steady_clock::now() < until) {
    std::ifstream stream(file);
    std::string line;
    // A line without its end is still being written.
    if (std::getline(stream, line) && !stream.eof() && !line.empty()) return line;
    if (Ended()) throw std::runtime_error("a started program ended at once");
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  throw std::runtime_error("a started program does not serve");
}

std::shared_ptr<grpc::Channel> OwnChannel(const std::string& address) {
  grpc::ChannelArguments arguments;
  arguments.SetInt(GRPC_ARG_USE_LOCAL_SUBCHANNEL_POOL, 1);
  return grpc::CreateCustomChannel(address, grpc::InsecureChannelCredentials(), arguments);
}

TemporaryFolder::TemporaryFolder()
    : path_(std::filesystem::temp_directory_path() / "rowproof-bench-XXXXXX") {
  if (mkdtemp(path_.data()) == nullptr) throw std::runtime_error("no temporary folder");
  // User postgres passes through it.
  chmod(path_.c_str(), 0755);
}

TemporaryFolder::~TemporaryFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

LiveServer::LiveServer(const std::string& programs) {
  const std::string var = folder() + "/var";
  const std::string server = programs + "/rowproofd";
  program_ = std::make_unique<Program>(
      std::vector<std::string>{server, "serve", "--var", var, "--listen", "127.0.0.1:0"},
      folder() + "/rowproofd.log");
  address_ = program_->AddressFrom(var + "/address");
  const std::string made = folder() + "/designer";
  const int failed = server::RunProgram(
      {server, "admin", "create-designer", "--name", "Ilse Invented", "--var", var}, made);
  std::ifstream stream(made);
  std::string account;
  if (failed != 0 || !(stream >> account >> designer_token_)) {
    throw std::runtime_error("no designer could be made");
  }
}

std::string LiveServer::connection() const {
  return "host=" + folder() + "/var/postgres/s user=rowproof dbname=rowproof";
}

}  // namespace rowproof::bench
