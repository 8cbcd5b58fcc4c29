#include <signal.h>
#include <spdlog/spdlog.h>
#include <sys/stat.h>

#include <CLI/CLI.hpp>
#include <atomic>
#include <cstdio>
#include <fstream>
#include <optional>

#include "absl/synchronization/mutex.h"
#include "services/server/listener.h"
#include "services/server/logs.h"
#include "services/server/memory_limit.h"
#include "services/server/server.h"

namespace rowproof::server {
namespace {

constexpr int kRefused = 3;

int Refuse(const absl::Status& status) {
  const std::string message(status.message().data(), status.message().size());
  FlushLog();
  std::fprintf(stderr, "rowproofd: %s\n", message.c_str());
  return kRefused;
}

// One thread waits for signals; every thread created later inherits the block. Who reads the log
// may go: that is no reason to end.
sigset_t BlockSignals() {
  signal(SIGPIPE, SIG_IGN);
  sigset_t set;
  sigemptyset(&set);
  sigaddset(&set, SIGTERM);
  sigaddset(&set, SIGINT);
  pthread_sigmask(SIG_BLOCK, &set, nullptr);
  return set;
}

int Serve(const Configuration& configuration) {
  // Debian's Abseil looks for cycles at every lock, in one graph for all threads.
  absl::SetMutexDeadlockDetectionMode(absl::OnDeadlockCycle::kIgnore);
  RaiseFileLimit();
  const sigset_t signals = BlockSignals();
  const StartAgain start_again(configuration);
  auto server = Server::Start(configuration);
  if (!server.ok()) return Refuse(server.status());
  const std::string address_file = configuration.var + "/address";
  std::ofstream(address_file) << (*server)->address() << '\n';
  spdlog::info("listening address={}", (*server)->address());
  std::atomic<bool> stopping = false;
  std::optional<MemoryWatch> memory;
  memory.emplace(configuration.memory_mib, [&] {
    spdlog::error("memory resident_mib={} limit_mib={} starting_again=true", ResidentMib(),
                  configuration.memory_mib);
    start_again.Now((*server)->address(), stopping);
  });
  int signal = 0;
  sigwait(&signals, &signal);
  stopping = true;
  memory.reset();
  spdlog::info("stopping signal={}", signal);
  std::remove(address_file.c_str());
  server->reset();
  spdlog::info("stopped");
  FlushLog();
  return 0;
}

int Migrate(const Configuration& configuration) {
  auto done = MigrateOnly(configuration);
  if (!done.ok()) return Refuse(done.status());
  std::printf("The database has the schema of this build.\n");
  return 0;
}

int CreateFirstDesigner(const Configuration& configuration, const std::string& name,
                        const std::string& mail) {
  auto made = CreateDesigner(configuration, name, mail);
  if (!made.ok()) return Refuse(made.status());
  std::printf("%s\n%s\n", made->account.c_str(), made->secret.c_str());
  return 0;
}

int LetCreatePatterns(const Configuration& configuration, const std::string& account) {
  auto done = AllowPatterns(configuration, account);
  if (!done.ok()) return Refuse(done.status());
  std::printf("%s may create patterns.\n", account.c_str());
  return 0;
}

void AddOptions(CLI::App& app, Configuration& c) {
  app.add_option("--var", c.var, "Folder of the private database and the address file")
      ->capture_default_str();
  app.add_option("--database", c.database,
                 "libpq connection string of another database, several hosts allowed; without it "
                 "the server has a private PostgreSQL below --var");
  app.add_option("--listen", c.listen, "Address and port; port 0 picks a free one")
      ->capture_default_str();
  app.add_option("--tls-certificate", c.tls_certificate_file, "PEM file of the certificate chain");
  app.add_option("--tls-key", c.tls_key_file, "PEM file of its private key");
  app.add_option("--client-certificates", c.client_certificates_file,
                 "PEM file of the authorities that clients' certificates must come from");
  app.add_option("--postgres-programs", c.postgres_programs,
                 "Folder of initdb, postgres and PostgreSQL's other programs")
      ->capture_default_str();
  app.add_option("--migrations", c.migrations, "Folder of the numbered SQL files")
      ->capture_default_str();
  app.add_option("--pool", c.pool_size, "Database connections")->capture_default_str();
  app.add_option("--threads", c.threads, "Most server threads")->capture_default_str();
  app.add_option("--memory-mib", c.memory_mib,
                 "The server starts again before it has that much memory; 0: no limit")
      ->capture_default_str();
  app.add_option("--shutdown-seconds", c.shutdown_seconds,
                 "Time for requests in flight after SIGTERM")
      ->capture_default_str();
  app.add_option("--log-level", c.log_level, "trace, debug, info, warn, error or off")
      ->capture_default_str();
}

int Main(int argc, char** argv) {
  Configuration configuration;
  std::string name;
  std::string mail;
  CLI::App app("rowproofd: the Rowproof server");
  app.set_version_flag("--version", ROWPROOF_VERSION);
  app.require_subcommand(1);
  app.fallthrough();
  AddOptions(app, configuration);
  const auto* serve = app.add_subcommand("serve", "Serve until SIGTERM or SIGINT");
  const auto* migrate =
      app.add_subcommand("migrate", "Bring the database of --database up to this build's schema");
  auto* admin = app.add_subcommand("admin", "Operator's commands on the database");
  admin->require_subcommand(1);
  auto* designer = admin->add_subcommand(
      "create-designer",
      "Make an account that may create patterns; prints its name and its token, once");
  designer->add_option("--name", name, "What the designer is called")->required();
  designer->add_option("--mail", mail, "Mail address");
  std::string account;
  auto* allow = admin->add_subcommand("allow-patterns",
                                      "Let an account that is there create patterns as well");
  allow->add_option("ACCOUNT", account, "Its name: accounts/...")->required();
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() == 0) return app.exit(error);  // help or version
    std::fprintf(stderr, "rowproofd: %s (rowproofd --help lists the options)\n", error.what());
    return kRefused;
  }
  StartLog(serve->parsed() ? configuration.log_level : "warn");
  // Files below --var are for the server's user only.
  umask(077);
  if (serve->parsed()) return Serve(configuration);
  if (migrate->parsed()) return Migrate(configuration);
  if (allow->parsed()) return LetCreatePatterns(configuration, account);
  return CreateFirstDesigner(configuration, name, mail);
}

}  // namespace
}  // namespace rowproof::server

int main(int argc, char** argv) { return rowproof::server::Main(argc, argv); }
