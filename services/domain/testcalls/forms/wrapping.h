// Lines of the form, broken so that mail need not break them and the reader finds them again.
// Thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_WRAPPING_H_
#define ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_WRAPPING_H_

#include <string>

namespace rowproof::testcalls {

// "label: text", at most kFormColumns characters a line unless a word is longer; a line is broken
// only if the rest is read as part of the answer. The text is normalised, without line feeds.
std::string WrappedAnswer(const std::string& label, const std::string& text);

// Lines "# ..." of at most kFormHelpColumns characters; longer words are cut.
std::string WrappedHelp(const std::string& text);

}  // namespace rowproof::testcalls

#endif  // ROWPROOF_SERVICES_DOMAIN_TESTCALLS_FORMS_WRAPPING_H_
