#include "viewer/cli/whole_file.h"

#include "viewer/cli/print.h"

#include <fstream>
#include <system_error>

namespace lugline::cli {

std::filesystem::path beside(const std::filesystem::path& file) {
  std::filesystem::path hidden = file;
  hidden.replace_filename("." + file.filename().string() + ".part");
  return hidden;
}

Outcome<bool> write_whole(const std::filesystem::path& file,
                          const std::vector<unsigned char>& bytes) {
  const std::filesystem::path part = beside(file);
  std::error_code error;
  std::ofstream out(part, std::ios::binary | std::ios::trunc);
  out.write(reinterpret_cast<const char*>(bytes.data()),
            static_cast<std::streamsize>(bytes.size()));
  out.close();
  if (out) {
    std::filesystem::rename(part, file, error);
  }
  if (!out || error) {
    std::filesystem::remove(part, error);
    return Problem{file.string() +
                   " could not be written (is its folder there, and may it be written to?)"};
  }
  return true;
}

Outcome<Span> span_of(const Unit& unit, const std::string& from, const std::string& to) {
  Span span{0, unit.steps.size() - 1};
  if (!from.empty()) {
    span.from = unit.step_index(from);
  }
  if (!to.empty()) {
    span.to = unit.step_index(to);
  }
  if (span.from >= unit.steps.size()) {
    return Problem{no_such("step", from, step_ids(unit))};
  }
  if (span.to >= unit.steps.size()) {
    return Problem{no_such("step", to, step_ids(unit))};
  }
  if (span.from > span.to) {
    return Problem{"--from is step " + std::to_string(span.from + 1) + " and --to is step " +
                   std::to_string(span.to + 1) + ", before it"};
  }
  return span;
}

} // namespace lugline::cli
