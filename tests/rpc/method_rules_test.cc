// The roles table names every method of the API, and nothing else; who may call it is what was
// reviewed in tests/golden/permissions.txt. ROWPROOF_REWRITE_GOLDEN=1 writes that file anew.
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <map>
#include <set>

#include "services/domain/access/permissions.h"
#include "tests/rpc/declared_api.h"
#include "tests/support/source_folder.h"

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

std::string NameOf(access::Callers callers) {
  switch (callers) {
    case access::Callers::kAnyone:
      return "anyone";
    case access::Callers::kInvited:
      return "whoever holds the invitation";
    case access::Callers::kSignedIn:
      return "anyone signed in";
    case access::Callers::kOwner:
      return "its owner";
    case access::Callers::kPatternMakers:
      return "accounts that may create patterns";
    case access::Callers::kPatternDesigner:
      return "the designer";
    case access::Callers::kPatternReaders:
      return "the designer and editors";
    case access::Callers::kPatternPeople:
      return "the designer, editors and testers";
    case access::Callers::kCallPeople:
      return "the designer, editors and testers of the call";
    case access::Callers::kCallPeopleOrEnded:
      return "the designer, editors and testers of the call, also those whose seat has ended";
    case access::Callers::kCallTesters:
      return "testers of the call";
    case access::Callers::kSeatHolder:
      return "testers of the call, also those whose seat has ended";
    case access::Callers::kCallSeats:
      return "testers of the call, and the designer for them";
  }
  return "";
}

TEST(MethodRules, AreThoseThatWereReviewed) {
  constexpr char kGolden[] = "tests/golden/permissions.txt";
  std::string rules;
  for (const access::MethodRule& rule : access::MethodRules()) {
    rules += std::string(rule.method) + ": " + NameOf(rule.callers) +
             (rule.needs_call ? " (of a test call)" : "") + "\n";
  }
  if (std::getenv("ROWPROOF_REWRITE_GOLDEN") != nullptr) {
    std::ofstream(InSources(kGolden), std::ios::binary) << rules;
  }
  std::ifstream file(InSources(kGolden), std::ios::binary);
  EXPECT_EQ(rules,
            std::string((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>()));
}

}  // namespace
}  // namespace rowproof::rpc
