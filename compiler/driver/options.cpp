#include "compiler/driver/options.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <map>
#include <sstream>

#include "compiler/driver/version.hpp"

namespace stave::driver {

namespace {

const std::map<std::string, DiagnosticFormat> diagnostic_formats{
    {"text", DiagnosticFormat::text},
    {"line", DiagnosticFormat::line},
    {"json", DiagnosticFormat::json},
};

const std::map<std::string, Form> forms{
    {"parse", Form::parse},       {"syntax", Form::syntax}, {"program", Form::program},
    {"timeline", Form::timeline}, {"page", Form::page},     {"feed", Form::feed},
};

void add_files(CLI::App& command, Options& options) {
    command.add_option("FILE", options.files, "Files to read; - is standard input")->required();
    command
        .add_option("--diagnostics", options.diagnostics,
                    "How problems are written: text, line or json")
        ->transform(CLI::CheckedTransformer(diagnostic_formats).description(""))
        ->type_name("FORM");
}

void add_commands(CLI::App& app, Options& options) {
    CLI::App* build = app.add_subcommand("build", "Make the cards and the calendar feeds");
    add_files(*build, options);
    build->add_option("--out", options.out, "Folder for cards and feeds")
        ->type_name("DIR")
        ->capture_default_str();
    build->callback([&options] { options.command = Command::build; });

    CLI::App* check = app.add_subcommand("check", "Only look for problems");
    add_files(*check, options);
    check->callback([&options] { options.command = Command::check; });

    CLI::App* explain =
        app.add_subcommand("explain", "Unroll the sessions as the athletes live them");
    add_files(*explain, options);
    explain->add_flag("--json", options.json, "As JSON");
    explain->callback([&options] { options.command = Command::explain; });

    CLI::App* dump = app.add_subcommand("dump", "Print a form between two passes, for developers");
    dump->add_option("FORM", options.form, "parse, syntax, program, timeline, page or feed")
        ->required()
        ->transform(CLI::CheckedTransformer(forms).description(""))
        ->type_name("");
    add_files(*dump, options);
    dump->callback([&options] { options.command = Command::dump; });
}

}  // namespace

std::expected<Options, Message> parse_options(const std::vector<std::string>& words) {
    Options options;
    CLI::App app("Stave turns training sessions written as text into cards and calendars.",
                 "stave");
    app.set_version_flag("--version", "stave " + std::string(version));
    app.require_subcommand(1);
    add_commands(app, options);
    // The library takes the words from the back.
    std::vector<std::string> reversed(words.rbegin(), words.rend());
    try {
        app.parse(reversed);
    } catch (const CLI::ParseError& error) {
        std::ostringstream out;
        std::ostringstream err;
        const bool is_error = app.exit(error, out, err) != 0;
        return std::unexpected(Message{is_error ? err.str() : out.str(), is_error});
    }
    return options;
}

}  // namespace stave::driver
