"""What was published: who, when, under which title, and what was looked at."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Source:
    """One publication.

    Parameters
    ----------
    seen
        Where the figures come from: the paper, its abstract or a page that reproduces them; or
        memory, which is said beside every figure.
    """

    author: str
    year: int
    title: str
    where: str
    studied: str
    seen: str = "seen"

    def words(self) -> str:
        """Return the reference as the table prints it."""
        return f"{self.author} {self.year}, *{self.title}*, {self.where}"


MEMORY = "from memory"

SOURCES = {
    "bosquet": Source(
        "Bosquet, Montpetit, Arvisais, Mujika",
        2007,
        "Effects of tapering on performance: a meta-analysis",
        "MSSE 39(8):1358-65",
        "27 studies of competitive athletes, mostly endurance; all of their training",
    ),
    "banister": Source(
        "Fitz-Clarke, Morton, Banister",
        1991,
        "Optimizing athletic performance by influence curves",
        "J Appl Physiol 71:1151-8",
        "the two-component model with its teaching constants",
        MEMORY,
    ),
    "ronnestad": Source(
        "Ronnestad, Nymark, Raastad",
        2011,
        "Effects of in-season strength maintenance training frequency in professional soccer "
        "players",
        "JSCR 25(10):2653-60",
        "7 + 7 footballers, 12 weeks in season, one session a week or one a fortnight",
    ),
    "spiering": Source(
        "Spiering, Mujika, Sharp, Foulis",
        2021,
        "Maintaining physical performance: the minimal dose of exercise needed to preserve "
        "endurance and strength over time",
        "JSCR 35(5):1449-58",
        "review: up to 32 weeks on one session a week and one set an exercise, load kept",
    ),
    "issurin": Source(
        "Issurin",
        2008,
        "Block periodization versus traditional training theory: a review",
        "J Sports Med Phys Fitness 48:65-75",
        "how long abilities last without training, by experience and review",
    ),
    "rogerson": Source(
        "Rogerson, Nolan, Androulakis Korakakis, Immonen, Wolf, Bell",
        2024,
        "Deloading practices in strength and physique sports: a cross-sectional survey",
        "Sports Med Open 10:26",
        "246 lifters; no field sport",
    ),
    "weldon": Source(
        "Weldon, Duncan, Turner, Lockie, Loturco",
        2022,
        "Practices of strength and conditioning coaches in professional sports: a systematic "
        "review",
        "Biol Sport 39(3):715-26",
        "eight surveys of coaches, Table 3: gym sessions a week",
    ),
    "oliva": Source(
        "Oliva-Lozano, Gomez-Carmona, Fortes, Pino-Ortega",
        2022,
        "Effect of training day, match, and length of the microcycle on workload periodization in "
        "professional soccer players: a full-season study",
        "Biol Sport 39(2):397-406",
        "one club of the second Spanish division, a season; distances, accelerations, player load",
    ),
    "sevens": Source(
        "Couderc and others",
        2020,
        "Road to Rio",
        "Front Sports Act Living 1:72 (names from memory)",
        "one rugby sevens squad, 48 weeks; internal load of everything, competitions included",
    ),
    "jeong": Source(
        "Jeong, Reilly, Morton, Bae, Drust",
        2011,
        "Quantification of the physiological loading of one week of pre-season and one week of "
        "in-season training in professional soccer players",
        "J Sports Sci 29(11):1161-6",
        "Korean professionals, session RPE of one week each: about 4340 and 1700 AU",
        MEMORY,
    ),
    "malone": Source(
        "Malone, Roe, Doran, Gabbett, Collins",
        2017,
        "High chronic training loads and exposure to bouts of maximal velocity running reduce "
        "injury risk in elite Gaelic football",
        "J Sci Med Sport 20:250-4",
        "37 Gaelic footballers; 90-120 m a week at top speed went with least injury at a chronic "
        "load of 4750 AU or more, about twice what our seasons hold",
    ),
    "cross_2017": Source(
        "Cross, Brughelli, Samozino, Brown, Morin",
        2017,
        "Optimal loading for maximizing power during sled-resisted sprinting",
        "IJSPP 12:1069-77",
        "12 recreational athletes and 15 sprinters: 78 and 82 % of body mass, 69-96 % one by one",
    ),
    "cahill": Source(
        "Cahill, Oliver, Cronin, Clark, Cross, Lloyd",
        2020,
        "Sled-push load-velocity profiling and implications for sprint training prescription in "
        "young athletes",
        "JSCR 34(10):2751-9 (title from memory)",
        "boys on artificial turf: 25, 50 and 75 % of speed lost at 44, 89 and 133 % of body mass",
    ),
    "petrakos": Source(
        "Petrakos, Morin, Egan",
        2016,
        "Resisted sled sprint training to improve sprint performance: a systematic review",
        "Sports Med 46:381-400",
        "classes of sleds by body mass and by speed lost",
        "cut-offs from memory",
    ),
    "haugen": Source(
        "Haugen, Seiler, Sandbakk, Tonnessen",
        2019,
        "The training and development of elite sprint performance: an integration of scientific "
        "and best practice literature",
        "Sports Med Open 5:44",
        "Table 2: best practice of sprinters",
    ),
    "benton": Source(
        "Young, Duthie, James, Talpey, Benton, Kilfoyle",
        2018,
        "Gradual vs. maximal acceleration: their influence on the prescription of maximal speed "
        "sprinting in team sport athletes",
        "Sports 6(3):66",
        "12 Australian footballers of Benton 2001: 97.5 % of top speed after 26.6 m",
    ),
    "samozino": Source(
        "Samozino and others",
        2016,
        "A simple method for measuring power, force, velocity properties, and mechanical "
        "effectiveness in sprint running",
        "Scand J Med Sci Sports 26:648-58",
        "sprinters on force plates: 638 N, 10.5 m/s, 1680 W",
    ),
    "nsca_chart": Source(
        "Baechle, Earle",
        2008,
        "Essentials of Strength Training and Conditioning",
        "NSCA, load table",
        "repetitions against per cent of the 1RM; 11 repetitions at 70 % from memory",
    ),
    "reynolds": Source(
        "Reynolds, Gordon, Robergs",
        2006,
        "Prediction of one repetition maximum strength from multiple repetition maximum testing "
        "and anthropometry",
        "JSCR 20(3):584-92",
        "70 adults: chest press 1RM = 1.1307 x 5RM + 0.6999, error 2.98 kg",
    ),
    "potach": Source(
        "Potach, Chu",
        2008,
        "Plyometric training, in Essentials of Strength Training and Conditioning",
        "NSCA",
        "ground contacts a session by level, experts' view",
    ),
    "baz_valle": Source(
        "Baz-Valle, Balsalobre-Fernandez, Alix-Fages, Santos-Concejero",
        2022,
        "A systematic review of the effects of different resistance training volumes on muscle "
        "hypertrophy",
        "J Hum Kinet 81:199-210",
        "12-20 weekly sets a muscle in trained young men",
    ),
    "foster": Source(
        "Foster and others",
        2001,
        "A new approach to monitoring exercise training",
        "JSCR 15(1):109-15",
        "rating of a session times its minutes",
    ),
    "petersen": Source(
        "Petersen, Thorborg, Nielsen, Budtz-Jorgensen, Holmich",
        2011,
        "Preventive effect of eccentric training on acute hamstring injuries in men's soccer",
        "Am J Sports Med 39(11):2296-303 (names and title from memory)",
        "schedule as tabulated in a letter on van Dyk and others 2019",
    ),
    "van_der_horst": Source(
        "van der Horst, Smits, Petersen, Goedhart, Backx",
        2015,
        "The preventive effect of the Nordic hamstring exercise on hamstring injuries in amateur "
        "soccer players",
        "Am J Sports Med 43(6):1316-23 (names and title from memory)",
        "schedule as tabulated in a letter on van Dyk and others 2019",
    ),
    "haroy": Source(
        "Haroy and others",
        2019,
        "The adductor strengthening programme prevents groin problems among male football players",
        "BJSM 53(3):150 (title from memory)",
        "three levels of adduction; 6-8 weeks of pre-season, 28 weeks in season; 41 % lower risk",
    ),
    "lloyd": Source(
        "Lloyd and others",
        2014,
        "Position statement on youth resistance training: the 2014 International Consensus",
        "BJSM 48(7):498-505",
        "agreement of experts",
        "numbers from memory",
    ),
}
