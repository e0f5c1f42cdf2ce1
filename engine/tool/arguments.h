// The command line: one command, its files, and options that are --name value or --name alone.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"

namespace proofleaf::tool {

struct Arguments {
  std::string command;
  std::vector<std::string> files;
  std::map<std::string, std::string> options;  // a flag's value is ""

  bool flag(const std::string& name) const { return options.contains(name); }
  std::string option(const std::string& name, const std::string& otherwise) const;
};

// with_value / flags: the options the command knows. Error: an unknown option, one without its
// value, or one given twice.
Result<Arguments> parse(const std::vector<std::string>& words,
                        const std::vector<std::string>& with_value,
                        const std::vector<std::string>& flags);

// A number within low..high. Error names the option.
Result<double> number(const Arguments& arguments, const std::string& name, double otherwise,
                      double low, double high);

extern const char* const kHelp;

}  // namespace proofleaf::tool
