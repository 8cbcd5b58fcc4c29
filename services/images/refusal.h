// How an importer refuses a file. Thread-safe.
#ifndef ROWPROOF_SERVICES_IMAGES_REFUSAL_H_
#define ROWPROOF_SERVICES_IMAGES_REFUSAL_H_

#include <cstddef>
#include <cstdint>
#include <string>

#include "absl/status/status.h"

namespace rowproof::images {

// INVALID_ARGUMENT with one field and a whole sentence, capitalised, of printable characters: what
// is wrong, then what to do.
absl::Status Refusal(const std::string& field, std::string sentence);

// Refuses a picture with no pixels, or more than kMostPixelsAcross or kMostPixels.
absl::Status CheckDimensions(const std::string& field, uint64_t width, uint64_t height);

// Refuses a file of no bytes, or of more than kMostFileBytes.
absl::Status CheckFileBytes(const std::string& field, size_t count);

// Refuses a picture of more than kMostPictureColours.
absl::Status TooManyColours();

// A byte of the file, as it may be shown.
std::string Shown(char byte);

}  // namespace rowproof::images

#endif  // ROWPROOF_SERVICES_IMAGES_REFUSAL_H_
