#include "tests/support/test_cluster.h"

#include <fcntl.h>
#include <sys/prctl.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <pqxx/pqxx>
#include <vector>

#include "absl/status/status.h"
#include "fmt/format.h"
#include "services/server/embedded_postgres.h"
#include "services/server/program.h"
#include "storage/database/migrate.h"
#include "tests/support/source_folder.h"

namespace rowproof::testing {
namespace {

constexpr char kPrograms[] = "/usr/lib/postgresql/15/bin";

void Require(bool holds, const std::string& sentence) {
  if (holds) return;
  std::fprintf(stderr, "the tests' database: %s\n", sentence.c_str());
  std::exit(1);
}

void Require(const absl::Status& status) { Require(status.ok(), status.ToString()); }

// Waits in a child process for the end of this one, then stops the cluster. The pipe is not
// inherited by the programs that are started, so its end is this process's end.
void KeepUntilTheEnd(const std::string& folder) {
  int ends[2];
  Require(pipe2(ends, O_CLOEXEC) == 0, "no pipe");
  const pid_t child = fork();
  Require(child >= 0, "no child process");
  if (child > 0) {
    close(ends[0]);
    return;
  }
  close(ends[1]);
  setsid();  // an interrupt of the tests is not meant for it
  // Whoever waits for the end of the tests' output must not wait for this process.
  const int nowhere = open("/dev/null", O_RDWR);
  for (const int stream : {0, 1, 2}) dup2(nowhere, stream);
  char byte = 0;
  while (read(ends[0], &byte, 1) < 0) {
  }
  server::RunProgram({std::string(kPrograms) + "/pg_ctl", "stop", "-w", "-t", "60", "-m",
                      "immediate", "-D", folder + "/data"},
                     "/dev/null");
  std::error_code error;
  std::filesystem::remove_all(folder, error);
  _exit(0);
}

}  // namespace

TestCluster& TestCluster::Get() {
  static TestCluster& cluster = *new TestCluster;  // ends with the process
  return cluster;
}

TestCluster::TestCluster() {
  const auto migrations = storage::ReadMigrations(InSources("storage/migrations"));
  Require(migrations.status());
  std::string folder = (std::filesystem::temp_directory_path() / "rowproof-test-XXXXXX").string();
  Require(mkdtemp(folder.data()) != nullptr, "no folder " + folder);
  folder_ = folder;
  Require(server::LeaveRoot(folder_));
  // Lost with root; the leak sanitizer looks at its own process.
  prctl(PR_SET_DUMPABLE, 1);
  KeepUntilTheEnd(folder_);
  server::EmbeddedPostgres postgres(folder_, kPrograms);
  Require(postgres.Start());
  Require(storage::Migrate(postgres.Connection(), *migrations).status());
  administration_ = postgres.Connection() + " dbname=postgres";
}

std::string TestCluster::NewDatabase(bool migrated) {
  const std::string name = fmt::format("test{}", ++made_);
  pqxx::connection session(administration_);
  pqxx::nontransaction(session).exec(
      fmt::format("create database {} template {}", name, migrated ? "rowproof" : "template0"));
  return fmt::format("host='{}' user=rowproof dbname={}", socket_folder(), name);
}

void TestCluster::DropDatabase(const std::string& connection) {
  const std::string name = connection.substr(connection.rfind('=') + 1);
  pqxx::connection session(administration_);
  pqxx::nontransaction(session).exec(fmt::format("drop database {} with (force)", name));
}

}  // namespace rowproof::testing
