// The API's shape against tests/golden/api_shape.txt, so that a change of it is seen in review.
// ROWPROOF_REWRITE_GOLDEN=1 writes the file anew.
#include <cctype>
#include <cstdlib>
#include <fstream>
#include <iterator>

#include "fmt/format.h"
#include "tests/rpc/declared_api.h"
#include "tests/support/source_folder.h"

namespace rowproof::rpc {
namespace {

using google::protobuf::Descriptor;
using google::protobuf::EnumDescriptor;
using google::protobuf::FieldDescriptor;
using google::protobuf::ServiceDescriptor;

constexpr char kGolden[] = "tests/golden/api_shape.txt";

std::string TypeOf(const FieldDescriptor& field) {
  if (field.type() == FieldDescriptor::TYPE_MESSAGE) return field.message_type()->full_name();
  if (field.type() == FieldDescriptor::TYPE_ENUM) return field.enum_type()->full_name();
  return field.type_name();
}

std::string ShapeOf(const FieldDescriptor& field) {
  std::string label;
  if (field.is_map()) {
    const Descriptor& entry = *field.message_type();
    return fmt::format("  {} = {}: map of {} to {}\n", field.name(), field.number(),
                       TypeOf(*entry.field(0)), TypeOf(*entry.field(1)));
  }
  if (field.is_repeated()) label = "repeated ";
  if (field.has_optional_keyword()) label = "optional ";
  const auto* oneof = field.real_containing_oneof();
  if (oneof != nullptr) label = "of " + oneof->name() + ", ";
  return fmt::format("  {} = {}: {}{}\n", field.name(), field.number(), label, TypeOf(field));
}

std::string ShapeOf(const EnumDescriptor& values) {
  std::string shape = fmt::format("enum {}\n", values.full_name());
  for (int i = 0; i < values.value_count(); ++i) {
    shape += fmt::format("  {} = {}\n", values.value(i)->name(), values.value(i)->number());
  }
  return shape;
}

std::string ShapeOf(const Descriptor& message) {
  if (message.options().map_entry()) return "";
  std::string shape = fmt::format("message {}\n", message.full_name());
  for (int i = 0; i < message.field_count(); ++i) shape += ShapeOf(*message.field(i));
  for (int i = 0; i < message.reserved_range_count(); ++i) {
    shape += fmt::format("  reserved {} to {}\n", message.reserved_range(i)->start,
                         message.reserved_range(i)->end - 1);
  }
  for (int i = 0; i < message.enum_type_count(); ++i) shape += ShapeOf(*message.enum_type(i));
  for (int i = 0; i < message.nested_type_count(); ++i) shape += ShapeOf(*message.nested_type(i));
  return shape;
}

std::string ShapeOf(const ServiceDescriptor& service) {
  std::string shape = fmt::format("service {}\n", service.full_name());
  for (int i = 0; i < service.method_count(); ++i) {
    const auto& method = *service.method(i);
    shape +=
        fmt::format("  {}: {}{} -> {}{}\n", method.name(),
                    method.client_streaming() ? "stream " : "", method.input_type()->full_name(),
                    method.server_streaming() ? "stream " : "", method.output_type()->full_name());
  }
  return shape;
}

std::string DeclaredShape() {
  std::string shape;
  for (const auto* file : DeclaredFiles()) {
    shape += fmt::format("# {}\n", file->name());
    for (int i = 0; i < file->service_count(); ++i) shape += ShapeOf(*file->service(i));
    for (int i = 0; i < file->message_type_count(); ++i) shape += ShapeOf(*file->message_type(i));
    for (int i = 0; i < file->enum_type_count(); ++i) shape += ShapeOf(*file->enum_type(i));
  }
  return shape;
}

TEST(ApiShape, IsTheOneThatWasReviewed) {
  const std::string declared = DeclaredShape();
  if (std::getenv("ROWPROOF_REWRITE_GOLDEN") != nullptr) {
    std::ofstream(InSources(kGolden), std::ios::binary) << declared;
  }
  std::ifstream file(InSources(kGolden), std::ios::binary);
  const std::string reviewed((std::istreambuf_iterator<char>(file)),
                             std::istreambuf_iterator<char>());
  EXPECT_EQ(declared, reviewed)
      << "run this test with ROWPROOF_REWRITE_GOLDEN=1 and read the difference";
}

// AIP-126, -140, -141 and architecture: what holds for every declaration.
TEST(ApiShape, HasPrefixedEnumsThatBeginUnspecifiedAndNoUnsignedNumbers) {
  const auto upper_snake = [](const std::string& name) {
    std::string upper;
    for (const char c : name) {
      if (c >= 'A' && c <= 'Z' && !upper.empty()) upper += '_';
      upper += static_cast<char>(std::toupper(c));
    }
    return upper;
  };
  for (const auto* file : DeclaredFiles()) {
    for (int i = 0; i < file->enum_type_count(); ++i) {
      const EnumDescriptor& values = *file->enum_type(i);
      const std::string prefix = upper_snake(values.name()) + "_";
      EXPECT_EQ(values.value(0)->name(), prefix + "UNSPECIFIED");
      EXPECT_EQ(values.value(0)->number(), 0);
      for (int v = 0; v < values.value_count(); ++v) {
        EXPECT_EQ(values.value(v)->name().find(prefix), 0u) << values.value(v)->full_name();
      }
    }
    for (int i = 0; i < file->message_type_count(); ++i) {
      const Descriptor& message = *file->message_type(i);
      for (int f = 0; f < message.field_count(); ++f) {
        const auto type = message.field(f)->cpp_type();
        EXPECT_NE(type, FieldDescriptor::CPPTYPE_UINT32) << message.field(f)->full_name();
        EXPECT_NE(type, FieldDescriptor::CPPTYPE_UINT64) << message.field(f)->full_name();
      }
    }
  }
}

}  // namespace
}  // namespace rowproof::rpc
