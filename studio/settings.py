"""The one settings file. Every value has a default that is safe on a laptop; see docs/running.md for the variables."""

from __future__ import annotations

import importlib.util
from pathlib import Path

from django.utils.translation import gettext_lazy as _

from studio.env import env_bool, env_database, env_int, env_list, env_secret, env_str

# --- paths -----------------------------------------------------------------------------------------------
BASE_DIR = Path(__file__).resolve().parent.parent
DATA_DIR = Path(env_str("DATA_DIR", str(BASE_DIR / "var")))


def _package_folder(package: str, folder: str) -> Path:
    """Return a folder of files inside an installed package; browser libraries come from packages."""
    spec = importlib.util.find_spec(package)
    if spec is None or not spec.submodule_search_locations:
        raise ModuleNotFoundError(f"The package {package} is missing; run script/start to install it.")
    return Path(next(iter(spec.submodule_search_locations))) / folder


# --- security --------------------------------------------------------------------------------------------
DEBUG = env_bool("DEBUG", False)
SECRET_KEY = env_secret("SECRET_KEY", DATA_DIR / "secret_key")
SECRET_KEY_FALLBACKS = env_list("SECRET_KEY_FALLBACKS", [])
ALLOWED_HOSTS = env_list("ALLOWED_HOSTS", ["localhost", "127.0.0.1", "[::1]"])
SITE_URL = env_str("SITE_URL", "http://127.0.0.1:8000").rstrip("/")
CSRF_TRUSTED_ORIGINS = env_list("CSRF_TRUSTED_ORIGINS", [])
HTTPS = env_bool("HTTPS", SITE_URL.startswith("https://"))
SECURE_SSL_REDIRECT = HTTPS
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = HTTPS
SESSION_COOKIE_NAME = "__Host-session" if HTTPS else "studio_session"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_AGE = 60 * 60 * 24 * 14
SECURE_HSTS_SECONDS = 31_536_000 if HTTPS else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = HTTPS
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if env_bool("BEHIND_PROXY", False) else None
SECURE_REFERRER_POLICY = "same-origin"
X_FRAME_OPTIONS = "DENY"
CONTENT_SECURITY_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; manifest-src 'self'"
)

# --- apps ------------------------------------------------------------------------------------------------
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "whitenoise.runserver_nostatic",
    "django.contrib.staticfiles",
    "django.contrib.humanize",
    "allauth",
    "allauth.account",
    "crispy_forms",
    "crispy_bootstrap5",
    "django_htmx",
    "template_partials",
    "django_linear_migrations",
    "shoots",
]
MIDDLEWARE = [
    "studio.middleware.request_id",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "studio.middleware.content_security",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.locale.LocaleMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "allauth.account.middleware.AccountMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "studio.middleware.current_member",
]
ROOT_URLCONF = "studio.urls"
WSGI_APPLICATION = "studio.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
            "builtins": ["template_partials.templatetags.partials", "shoots.templatetags.shoots"],
        },
    }
]
CRISPY_ALLOWED_TEMPLATE_PACKS = CRISPY_TEMPLATE_PACK = "bootstrap5"
CRISPY_FAIL_SILENTLY = False

# --- database, files -------------------------------------------------------------------------------------
DATABASES = {"default": env_database("DATABASE_URL", DATA_DIR / "studio.sqlite3")}
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
S3_BUCKET = env_str("S3_BUCKET", "")
STORAGES = {
    "default": (
        {
            "BACKEND": "storages.backends.s3.S3Storage",
            "OPTIONS": {
                "bucket_name": S3_BUCKET,
                "endpoint_url": env_str("S3_ENDPOINT_URL", "") or None,
                "region_name": env_str("S3_REGION", "") or None,
                "default_acl": "private",
                "file_overwrite": False,
            },
        }
        if S3_BUCKET
        else {
            "BACKEND": "django.core.files.storage.FileSystemStorage",
            "OPTIONS": {"location": str(DATA_DIR / "files")},
        }
    ),
    "staticfiles": {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"},
}
STATIC_URL = "/static/"
STATIC_ROOT = DATA_DIR / "static"
#: TOML files with words of the studio's own for reading notes of calls; docs/readnotes.md says in which form.
WORDS_DIR = DATA_DIR / "words"
STATICFILES_DIRS = [
    ("bootstrap", _package_folder("bootstrap", "css")),
    ("fonts", _package_folder("font_source_sans_pro", "files")),
]
WHITENOISE_USE_FINDERS = True
UPLOAD_LIMIT_MB = env_int("UPLOAD_LIMIT_MB", 200, at_least=1)
DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 4000

# --- people and sign-in ----------------------------------------------------------------------------------
AUTH_USER_MODEL = "shoots.User"
AUTHENTICATION_BACKENDS = ["allauth.account.auth_backends.AuthenticationBackend"]
ACCOUNT_ADAPTER = "shoots.accounts.adapters.StudioAccountAdapter"
ACCOUNT_LOGIN_METHODS = {"email"}
ACCOUNT_SIGNUP_FIELDS = ["email*", "password1*"]
ACCOUNT_USER_MODEL_USERNAME_FIELD = None
ACCOUNT_EMAIL_VERIFICATION = "none"
ACCOUNT_LOGOUT_ON_GET = False
ACCOUNT_EMAIL_UNKNOWN_ACCOUNTS = False
ACCOUNT_PASSWORD_RESET_TOKEN_GENERATOR = "shoots.accounts.adapters.ResetTokens"  # noqa: S105 - a class
ACCOUNT_FORMS = {
    "login": "shoots.accounts.forms.SignInForm",
    "reset_password": "shoots.accounts.forms.ForgottenForm",
    "reset_password_from_key": "shoots.accounts.forms.NewPasswordForm",
    "change_password": "shoots.accounts.forms.OtherPasswordForm",
}
# Tries at a password: 5 in five minutes for an account, 10 a minute for an address; resets: 5 a minute for an account.
# Counted in each web process, so that nobody is locked out while the broker is away; two workers allow twice as many.
ACCOUNT_RATE_LIMITS = {"login_failed": "10/m/ip,5/300s/key", "login": "30/m/ip", "reset_password": "20/m/ip,5/m/key"}
PASSWORD_RESET_TIMEOUT = 60 * 60 * 4
ACCOUNT_SESSION_REMEMBER = True
LOGIN_URL = "account_login"
LOGIN_REDIRECT_URL = "home"
ACCOUNT_LOGOUT_REDIRECT_URL = "account_login"
AUTH_PASSWORD_VALIDATORS = [
    # NIST SP 800-63B-4 section 3.1.1.2: long, no composition rules, not a common one.
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 15}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
]

# --- language and time -----------------------------------------------------------------------------------
LANGUAGE_CODE = "en-gb"
LANGUAGES = [("en-gb", _("English"))]
TIME_ZONE = "UTC"
USE_TZ = USE_I18N = True
LOCALE_PATHS = [BASE_DIR / "locale"]

# --- jobs ------------------------------------------------------------------------------------------------
REDIS_URL = env_str("REDIS_URL", "")
CELERY_BROKER_URL = REDIS_URL or None
CELERY_TASK_IGNORE_RESULT = True
CELERY_TASK_ACKS_LATE = True
CELERY_WORKER_PREFETCH_MULTIPLIER = 1
CELERY_BROKER_CONNECTION_RETRY_ON_STARTUP = True
# Nobody waits for a broker that is away: a nudge that fails at once costs seconds, because the sweep finds its row.
CELERY_BROKER_TRANSPORT_OPTIONS = {"visibility_timeout": 900, "max_retries": 0, "socket_connect_timeout": 2}
CELERY_WORKER_HIJACK_ROOT_LOGGER = False
OUTBOX_LEASE_S = env_int("OUTBOX_LEASE_S", 120, at_least=1)

# --- mail ------------------------------------------------------------------------------------------------
SMTP_URL = env_str("SMTP_URL", "")
EMAIL_BACKEND = "shoots.outbox.adapters.UrlSmtpBackend" if SMTP_URL else "shoots.outbox.adapters.ShownInProgramBackend"
DEFAULT_FROM_EMAIL = SERVER_EMAIL = env_str("MAIL_FROM", "studio@example.com")

# --- logs: a request id, no token, no personal data ------------------------------------------------------
LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "filters": {"request_id": {"()": "studio.logs.RequestIdFilter"}},
    "formatters": {"line": {"format": "%(asctime)s %(levelname)s %(request_id)s %(name)s: %(message)s"}},
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "line", "filters": ["request_id"]}},
    "root": {"handlers": ["stderr"], "level": env_str("LOG_LEVEL", "WARNING")},
}
