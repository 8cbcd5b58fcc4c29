// The roles table names every method of the API, and nothing else.
#include <map>
#include <set>

#include "services/domain/access/permissions.h"
#include "tests/rpc/declared_api.h"

namespace rowproof::rpc {
namespace {

std::set<std::string> DeclaredMethods() {
  std::set<std::string> methods;
  for (const auto* file : DeclaredFiles()) {
    for (int s = 0; s < file->service_count(); ++s) {
      const auto* service = file->service(s);
      for (int m = 0; m < service->method_count(); ++m) {
        methods.insert(service->name() + "." + service->method(m)->name());
      }
    }
  }
  return methods;
}

TEST(MethodRules, SayOnceForEveryMethodWhoMayCallIt) {
  std::map<std::string, int> rules;
  for (const access::MethodRule& rule : access::MethodRules()) ++rules[std::string(rule.method)];
  for (const std::string& method : DeclaredMethods()) {
    EXPECT_EQ(rules[method], 1) << method;
  }
}

TEST(MethodRules, NameNoMethodThatDoesNotExist) {
  const std::set<std::string> declared = DeclaredMethods();
  for (const access::MethodRule& rule : access::MethodRules()) {
    EXPECT_TRUE(declared.contains(std::string(rule.method))) << rule.method;
  }
}

}  // namespace
}  // namespace rowproof::rpc
