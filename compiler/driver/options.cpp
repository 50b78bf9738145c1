#include "compiler/driver/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <charconv>
#include <map>
#include <memory>
#include <set>
#include <sstream>
#include <system_error>

#include "backends/card/png/png_writer.hpp"
#include "compiler/floor/room.hpp"

namespace stave::driver {

namespace {

template <typename Value>
using Words = std::map<std::string, Value>;

const Words<DiagnosticFormat> diagnostic_formats{
    {"text", DiagnosticFormat::text},
    {"line", DiagnosticFormat::line},
    {"json", DiagnosticFormat::json},
};

const Words<Form> forms{
    {"parse", Form::parse},       {"syntax", Form::syntax}, {"program", Form::program},
    {"timeline", Form::timeline}, {"page", Form::page},     {"feed", Form::feed},
};

const Words<card::Paper> paper_words = [] {
    Words<card::Paper> words;
    for (const card::Paper paper : card::papers)
        words.emplace(card::name_of(paper), paper);
    return words;
}();

const Words<wording::Language> language_words = [] {
    Words<wording::Language> words;
    for (const wording::Language language : wording::languages)
        words.emplace(wording::tag(language), language);
    return words;
}();

// Takes one of the words and nothing else; `choices` names them in the message.
template <typename Value>
auto one_of(const Words<Value>& words, const std::string& choices, Value& value) {
    return [&words, choices, &value](const std::string& word) {
        const auto found = words.find(word);
        if (found == words.end()) {
            throw CLI::ValidationError(fmt::format("{} is not one of {}", word, choices));
        }
        value = found->second;
    };
}

void add_diagnostics(CLI::App& command, Options& options) {
    command
        .add_option_function<std::string>(
            "--diagnostics", one_of(diagnostic_formats, "text, line and json", options.diagnostics),
            "How problems are written: text, line or json")
        ->type_name("FORM");
}

void add_files(CLI::App& command, Options& options) {
    command.add_option("FILE", options.files, "Files to read; - is standard input")
        ->required()
        ->type_name("");
    add_diagnostics(command, options);
}

void add_strict(CLI::App& command, Options& options) {
    command.add_flag("--strict", options.strict, "Let warnings count as errors");
}

std::string not_empty(const std::string& text) {
    return text.empty() ? "the folder's name is empty" : "";
}

void add_card(CLI::App& command, Options& options) {
    command
        .add_option_function<std::string>(
            "--paper", one_of(paper_words, "a3, a4, a5, a6 and letter", options.card.paper),
            "What cards are printed on: a4, letter, a5, a6 for a pocket, a3 for a wall")
        ->type_name("PAPER");
    command
        .add_option_function<std::string>(
            "--lang",
            one_of(language_words, "en, pt, es, fr, de, pl and el", options.card.language),
            "The language of the words that cards and feeds say by themselves: "
            "en, pt, es, fr, de, pl, el")
        ->type_name("LANG");
    command.add_option("--font", options.font, "Folder of another typeface's .ttf files")
        ->type_name("DIR")
        ->check(CLI::Validator(not_empty, ""));
    command.add_flag("--technique", options.card.has_technique,
                     "Add pages for the back: how the movements go, step by step");
}

void add_now(CLI::App& command, Options& options) {
    command
        .add_option("--now", options.now,
                    "The time that feeds take it to be, such as 2026-12-01T12:00:00Z")
        ->type_name("TIME");
}

void add_feed(CLI::App& command, Options& options) {
    command
        .add_option("--previous", options.previous,
                    "A feed to go on from, for a file that was renamed or moved")
        ->type_name("FEED");
    add_now(command, options);
}

CLI::App& add_command(CLI::App& app, Options& options, Command command, const std::string& name,
                      const std::string& description) {
    CLI::App* added = app.add_subcommand(name, description);
    added->group("Commands");
    added->callback([&options, command] { options.command = command; });
    return *added;
}

void add_out(CLI::App& command, Options& options, const std::string& description) {
    command.add_option("--out", options.out, description)
        ->type_name("DIR")
        ->check(CLI::Validator(not_empty, ""))
        ->capture_default_str();
}

void add_preview(CLI::App& app, Options& options) {
    constexpr int most_pages = 99;
    CLI::App& preview =
        add_command(app, options, Command::preview, "preview", "Draw the cards as PNG pictures");
    add_files(preview, options);
    preview.add_option("--page", options.page, "Only this page of each card")
        ->type_name("N")
        ->check(CLI::Range(1, most_pages));
    preview.add_option("--dpi", options.dots_per_inch, "Dots per inch")
        ->type_name("N")
        ->check(CLI::Range(card::least_dots_per_inch, card::most_dots_per_inch))
        ->capture_default_str();
    add_out(preview, options, "Folder for the pictures");
    add_card(preview, options);
    add_strict(preview, options);
}

void add_publish(CLI::App& app, Options& options) {
    CLI::App& publish = add_command(app, options, Command::publish, "publish",
                                    "Make a folder for the web: cards, feeds and pages");
    publish.add_option("FILE", options.files, "Files to read; - is standard input")->type_name("");
    publish
        .add_option("--private", options.private_files,
                    "A file to publish at an address that nobody guesses; may be said again")
        ->allow_extra_args(false)
        ->type_name("FILE");
    add_out(publish, options, "Folder to be served");
    publish.get_option("--out")->required();
    publish
        .add_option("--base", options.base,
                    "The address of https that the folder will be served under")
        ->type_name("URL");
    add_now(publish, options);
    publish.add_flag("--svg", options.svg, "Add pictures of the cards, a file for each page");
    add_card(publish, options);
    add_diagnostics(publish, options);
    add_strict(publish, options);
    publish.callback([&options] {
        options.command = Command::publish;
        if (options.files.empty() && options.private_files.empty())
            throw CLI::RequiredError("FILE");
        options.files.insert(options.files.end(), options.private_files.begin(),
                             options.private_files.end());
    });
}

void add_serve(CLI::App& app, Options& options) {
    constexpr int last_port = 65535;
    CLI::App& serve = add_command(app, options, Command::serve, "serve",
                                  "Serve a published folder on this computer, or in its network");
    serve.add_option("DIR", options.folder, "Folder that stave publish wrote")
        ->required()
        ->check(CLI::Validator(not_empty, ""))
        ->type_name("");
    serve.add_option("--port", options.port, "Port to serve it at; 0 takes any that is free")
        ->type_name("N")
        ->check(CLI::Range(0, last_port))
        ->capture_default_str();
    serve.add_flag("--lan", options.lan,
                   "Let everybody in the network read it, and show how telephones get there");
    add_diagnostics(serve, options);
}

// What is made, where, and how.
void add_making(CLI::App& command, Options& options) {
    add_out(command, options, "Folder for cards and feeds");
    add_card(command, options);
    command.add_flag("--together", options.together,
                     "Add one PDF with the cards of all athletes of a session, for the printer");
    command.add_flag("--svg", options.svg, "Add pictures of the cards, a file for each page");
    add_strict(command, options);
}

void add_builds(CLI::App& app, Options& options) {
    CLI::App& build =
        add_command(app, options, Command::build, "build", "Make the cards and the calendar feeds");
    add_files(build, options);
    add_feed(build, options);
    add_making(build, options);

    CLI::App& watch = add_command(app, options, Command::watch, "watch",
                                  "Build, and build again whenever a file is saved");
    watch.add_option("FILE", options.files, "Files to read and to watch")
        ->required()
        ->type_name("");
    add_diagnostics(watch, options);
    add_making(watch, options);
}

// A number of people, or else the name of those who come.
void read_floor(const std::string& said, Options& options) {
    int people = 0;
    const char* const end = said.data() + said.size();
    const auto read = std::from_chars(said.data(), end, people);
    if (read.ptr != end) {
        options.squad = said;
        return;
    }
    if (read.ec != std::errc() || people < 1 || people > floors::most_in_room) {
        throw CLI::ValidationError(
            "--floor", fmt::format("{} people are not 1 to {}", said, floors::most_in_room));
    }
    options.people = people;
}

void add_explain(CLI::App& app, Options& options) {
    CLI::App& explain = add_command(app, options, Command::explain, "explain",
                                    "Unroll the sessions as the athletes live them");
    add_files(explain, options);
    CLI::Option* json = explain.add_flag("--json", options.json, "As JSON");
    CLI::Option* loads =
        explain
            .add_flag("--loads", options.loads,
                      "How each athlete's loads were worked out; for the coach alone")
            ->excludes(json);
    CLI::Option* who =
        explain
            .add_flag("--who", options.who,
                      "Who does what, and something else or nothing why; for the coach alone")
            ->excludes(json);
    CLI::Option* floor =
        explain
            .add_option_function<std::string>(
                "--floor", [&options](const std::string& said) { read_floor(said, options); },
                "A rota for so many people in one room, or for those of a squad by their names, "
                "with the kit that is there")
            ->type_name("N|SQUAD")
            ->check(CLI::Validator(not_empty, ""))
            ->excludes(loads)
            ->excludes(who);
    explain.add_option("--day", options.day, "Rotas of the sessions that are held on this day")
        ->type_name("DATE")
        ->needs(floor);
    explain.add_flag("--wall", options.wall, "Rotas as pages for the wall: PDFs in DIR/floor")
        ->needs(floor)
        ->excludes(json);
    add_out(explain, options, "Folder for --wall");
}

void add_commands(CLI::App& app, Options& options) {
    add_builds(app, options);
    add_publish(app, options);
    add_serve(app, options);
    add_preview(app, options);

    CLI::App& check = add_command(app, options, Command::check, "check", "Only look for problems");
    add_files(check, options);
    add_card(check, options);
    add_strict(check, options);
    check.add_flag("--fix", options.fix, "Make the mends of errors that are sure in the files");

    add_explain(app, options);

    CLI::App& plan = add_command(app, options, Command::plan, "plan",
                                 "Show the plans week by week: days, minutes, and what grows");
    add_files(plan, options);
    plan.add_flag("--json", options.json, "As JSON");

    CLI::App& format = add_command(app, options, Command::format, "format",
                                   "Give files their one true layout, in their places");
    add_files(format, options);
    format.add_flag("--check", options.only_check, "Only name the files that would change");

    CLI::App& movements =
        add_command(app, options, Command::movements, "movements",
                    "List the movements that are known, look for some, or show one");
    movements.add_option("WORDS", options.words, "A movement's name, or words to look for")
        ->type_name("");
    movements
        .add_option("--file", options.files,
                    "A file whose definitions count as well, or instead; may be said again")
        ->allow_extra_args(false)
        ->type_name("FILE");
    add_diagnostics(movements, options);

    CLI::App& conventions = add_command(app, options, Command::conventions, "conventions",
                                        "Say what is reckoned how where no source settles it");
    conventions.add_flag("--json", options.json, "As JSON");

    CLI::App& dump = add_command(app, options, Command::dump, "dump",
                                 "Print a form between two passes, for developers");
    const std::string choices = "parse, syntax, program, timeline, page and feed";
    dump.add_option_function<std::string>("FORM", one_of(forms, choices, options.form),
                                          "One of " + choices)
        ->required()
        ->type_name("");
    add_files(dump, options);
    add_card(dump, options);
    add_now(dump, options);
}

// One sentence, and where to read more.
std::string usage_problem(const CLI::App* app, const CLI::Error& error) {
    std::string words = "stave";
    std::string problem = error.what();
    for (const CLI::App* command : app->get_subcommands())
        words += " " + command->get_name();
    if (app->get_subcommands().empty() && error.get_name() == "RequiredError") {
        const std::vector<std::string> given = app->remaining();
        problem = given.empty() ? "a command is missing" : given.front() + " is no command";
    }
    return fmt::format("stave: {}\nTry {} --help.\n", problem, words);
}

// A file that is named twice is still one.
void keep_first(std::vector<std::string>& files) {
    std::set<std::string> met;
    std::erase_if(files, [&](const std::string& file) { return !met.insert(file).second; });
}

}  // namespace

std::expected<Options, Message> parse_options(const std::vector<std::string>& words) {
    Options options;
    CLI::App app("Stave turns training sessions written as text into cards and calendars.",
                 "stave");
    const auto formatter = std::make_shared<CLI::Formatter>();
    formatter->label("REQUIRED", "");
    formatter->label("SUBCOMMAND", "COMMAND");
    formatter->label("Positionals", "Arguments");
    app.formatter(formatter);
    app.failure_message(usage_problem);
    app.set_help_flag("-h,--help", "Show this help");
    app.set_version_flag("--version", "stave " STAVE_VERSION, "Show the version");
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
    keep_first(options.files);
    if (!options.previous.empty() && options.files.size() > 1) {
        return std::unexpected(
            Message{"stave: --previous goes with one file, since a feed belongs to one\n"
                    "Try stave build --help.\n",
                    true});
    }
    return options;
}

}  // namespace stave::driver
