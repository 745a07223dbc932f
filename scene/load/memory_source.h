// A unit's files held in memory: for tests, fuzzers, and units that come as one file.
//
// Owns its bytes. Models that refer to other files find none: nothing on disk
// is opened.
#pragma once

#include "scene/load/file_source.h"

#include <map>
#include <string>

namespace lugline {

class MemorySource : public FileSource {
public:
  void put(const std::string& name, std::string bytes) { files_[name] = std::move(bytes); }

  [[nodiscard]] Outcome<std::uintmax_t> size_of(const std::string& name) const override;
  [[nodiscard]] Outcome<std::string> bytes(const std::string& name,
                                           std::uintmax_t most_bytes) const override;
  [[nodiscard]] ModelReport model(const std::string& name) const override;
  [[nodiscard]] std::vector<std::string> names() const override;

private:
  std::map<std::string, std::string> files_;
};

} // namespace lugline
