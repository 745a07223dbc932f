// What the loader finds wrong, and what it finds odd, while it reads.
//
// Owns both lists. Nothing here fails: a finding is kept, and reading goes on,
// so that all complaints of a unit come in one go.
#pragma once

#include "scene/load/unit.h"
#include "scene/quantity/complaint.h"

#include <string>
#include <vector>

namespace lugline {

/// Something read, and where it stood.
template <class T>
struct Written {
  T value{};
  SourcePlace at;
};
using WrittenText = Written<std::string>;

class Findings {
public:
  void complain(const SourcePlace& at, std::string message, std::string hint = {});
  void ask(const SourcePlace& at, std::string message, std::string hint = {});

  /// "did you mean CC-F1?", or empty. Only so many are looked for: a file of
  /// nothing but wrong names must not take minutes to refuse.
  std::string nearest(const std::string& written, const std::vector<std::string>& known);

  [[nodiscard]] bool sound() const { return complaints_.empty(); }
  /// In the order of the files and their lines; the whole-file ones first.
  [[nodiscard]] std::vector<Complaint> complaints() const;
  [[nodiscard]] std::vector<Complaint> questions() const;

private:
  std::vector<Complaint> complaints_;
  std::vector<Complaint> questions_;
  int hints_left_ = 200;
};

/// In quotes, cut short where it is long, with control characters shown as '?':
/// what a stranger wrote, fit to stand in a message.
std::string in_quotes(const std::string& written);

/// "a, b and c"; after `most` names "… and 12 more".
std::string listed(const std::vector<std::string>& names, std::size_t most = 8);

} // namespace lugline
