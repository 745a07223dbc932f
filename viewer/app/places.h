// Where things are kept between sittings: logs, settings, saved pictures.
//
// By the desktop's conventions (XDG base directories): the environment is read
// here and nowhere else. Paths only; nothing is created.
#pragma once

#include <filesystem>
#include <string>

namespace lugline {

/// The log of the build on that unit: in $XDG_STATE_HOME or ~/.local/state,
/// lugline/<folder's name>-<8 digits of its path>.jsonl. The digits keep two
/// folders of one name apart. Empty where there is no home to keep it in.
std::filesystem::path log_place(const std::filesystem::path& unit_folder);

/// In $XDG_CONFIG_HOME or ~/.config. Empty where there is no home.
std::filesystem::path settings_place();

/// ~/Pictures where it is there, else the home, else where the program runs.
std::filesystem::path pictures_place();

/// The folder's own name, as short as a title: "hobspindle-three".
std::string name_of_folder(const std::filesystem::path& folder);

} // namespace lugline
